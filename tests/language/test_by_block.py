"""A text parsed block by block, some of them parsed before, has the tree that it has as a whole."""

from __future__ import annotations

import random

import pytest

from matrixgen.source.automaton import Automaton
from matrixgen.source.by_block import MOST_KEPT, Blocks
from matrixgen.source.lexer import keys_lexer
from matrixgen.source.parser import LINE_ENDS, parsed_by
from tests.amounts import amount
from tests.generator.files import REVISED, draft
from tests.language.spacing import Spacing, as_unix, statements_of
from tests.language.test_by_lark import broken

FILES = amount("MATRIXGEN_FILES_BY_BLOCK", suite=20, long=1000)


def placed(one):
    """A tree or a word with its lines and columns; nobody asks where a line end or a file is."""
    is_asked = getattr(one, "type", "") not in LINE_ENDS and getattr(one, "data", "") != "start"
    where = is_asked and (one.line, one.column, one.end_line, one.end_column)
    if isinstance(one, str):
        return one.type, str(one), where
    return one.data, where, [placed(child) for child in one.children]


def same(blocks, source, *, keeps_all=False):
    """Check one text; return whether it could be parsed block by block."""
    text = "\n" + source
    reader = Automaton(text, keys_lexer(), keeps_all=keeps_all)
    whole = parsed_by(reader, text, 10**6)
    tree = blocks.tree(text, keeps_all=keeps_all)
    assert (tree is None) == bool(whole.mistakes)
    assert tree is None or placed(tree) == placed(whole.tree)
    return tree is not None


@pytest.mark.few(1)
@pytest.mark.parametrize("keeps_all", [False, True])
def test_revisions_of_a_file_have_their_own_trees(keeps_all):
    blocks = Blocks(keys_lexer())
    for seed in range(FILES):
        file = draft(seed, most_keys=12)
        for text in [file.text, *(file.revised(part, seed + 1).text for part in REVISED)]:
            assert same(blocks, text, keeps_all=keeps_all)
            assert same(blocks, f"# further down\n{text}", keeps_all=keeps_all)


def test_files_spaced_in_any_way_have_their_own_trees():
    blocks = Blocks(keys_lexer())
    for seed in range(FILES):
        text = Spacing(random.Random(seed)).text(statements_of(draft(seed, most_keys=12).text))
        assert same(blocks, as_unix(text)) and same(blocks, as_unix(text))


def test_a_broken_file_is_left_to_whoever_recovers():
    blocks, left = Blocks(keys_lexer()), 0
    for seed in range(5 * FILES):
        chance = random.Random(seed)
        text = broken(draft(chance.randrange(FILES), most_keys=12).text, chance)
        left += not same(blocks, text)
    assert FILES < left < 5 * FILES


@pytest.mark.parametrize("text", ["", "\n", "# only a comment", "  \n", "  indented\n", "plate"])
def test_files_of_next_to_nothing_have_their_own_trees(text):
    same(Blocks(keys_lexer()), text)


def test_a_block_is_parsed_once_wherever_other_blocks_change(monkeypatch):
    parsed = []
    resume = Automaton.resume
    monkeypatch.setattr(Automaton, "resume", lambda one: parsed.append(1) or resume(one))
    blocks = Blocks(keys_lexer())
    for name in ("A", "B", "C"):
        assert blocks.tree(f"\nplate\n  line {name}\nwiring\n  row r\n", keeps_all=False)
    assert len(parsed) == 5  # nothing before the first block, a plate three times, the wiring once


def test_only_so_many_blocks_are_kept():
    blocks = Blocks(keys_lexer())
    for number in range(MOST_KEPT + 9):
        assert blocks.tree(f"\nplate\n  line K{number}\n", keeps_all=False)
    assert len(blocks._known) == MOST_KEPT
