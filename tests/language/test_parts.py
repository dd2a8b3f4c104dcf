"""What a statement is made of is told by the grammar alone: a planted one is laid out and merged.

Formatter and merge know words by their terminals and parts, so nothing there says which statements
there are. What they do have to be told is what kind of word a terminal is: one that nobody
classified is found here.
"""

from __future__ import annotations

import random
import re
from collections import defaultdict

import pytest

from matrixgen.format.formatted import formatted
from matrixgen.format.stretches import TOUCHES
from matrixgen.merge import merge
from matrixgen.merge.parts import joined
from matrixgen.merge.rewrite import NAMED
from matrixgen.merge.statement import merged_statement
from matrixgen.model import SourceText
from matrixgen.record import changed
from matrixgen.resources import resource
from matrixgen.source import lessons, tables
from matrixgen.source.by_lark import lark_parser
from matrixgen.source.lexer import keys_lexer
from matrixgen.source.parts import GOES_WITH_BEFORE, KEYS, KINDS, TELLS_APART
from matrixgen.source.statements import BLOCKS, STATEMENTS, StatementKind
from matrixgen.source.tree import every_statement, words_in
from matrixgen.source.tree_reader import tree_of
from tests.generator.files import draft
from tests.language.whole import WHOLE

FILES = [draft(seed, most_keys=40).text for seed in range(30, 125)]
NAMES_NOTHING = {
    *("BOARD_NAME", "COLOUR", "DIODE_NAME", "LAYOUT_NAME", "LIGHT_COLOUR", "PIN", "SLUG"),
    "SYSTEM_NAME",
}
"""Names of things that no file gives a name to, so that no merge sees them renamed."""

PLANTED = StatementKind(
    rule="version",
    keyword="version",
    block="keyboard",
    often="once",
    form='version 1.2, note "tried"',
)


@pytest.fixture
def plant(tmp_path, monkeypatch):
    """Give the language the grammar with some changes, until the test ends."""

    def planted(*changes):
        text = (resource("grammar") / "keys.lark").read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1, old
            text = text.replace(old, new)
        (tmp_path / "keys.lark").write_text(text, encoding="utf-8")
        monkeypatch.setattr(tables, "resource", lambda _: tmp_path)
        monkeypatch.setattr(tables, "cache_folder", lambda: tmp_path / "cache")
        forget()

    def forget():
        keys_lexer.cache_clear()
        lessons._taught.cache_clear()

    yield planted
    monkeypatch.undo()
    forget()


HOST = ('"version" NUMBER', '"version" HOST_NAME? NUMBER')
VERSION = (
    ("            | remember\n", "            | remember\n            | version\n"),
    (
        "maker       :",
        'version     : "version" NUMBER note?\nnote: "," "note" STRING\nmaker       :',
    ),
)


IGNORED = {"BLANK", "COMMENT"}
LISTED = {*KINDS, *TELLS_APART, *GOES_WITH_BEFORE, *TOUCHES, *NAMED}


def unclassified():
    """The terminals that match free words, of which nothing says what they name."""
    words = (one for one in keys_lexer().tables.terminals if one.name in keys_lexer().meant)
    free = {one.name for one in words if re.fullmatch(one.regular, "Zz9")}
    return free - NAMED.keys() - NAMES_NOTHING


def test_it_is_known_what_each_word_names():
    assert unclassified() == set()


def test_a_name_of_which_nobody_says_what_it_names_is_seen(plant):
    plant(*VERSION, ("SLUG        : _NAME", "SLUG        : _NAME\nHOST_NAME   : _NAME"), HOST)
    assert unclassified() == {"HOST_NAME"}


def test_the_words_that_mean_something_are_those_that_a_tree_keeps_in_any_case():
    grammar = lark_parser((resource("grammar") / "keys.lark").read_text("utf-8"))
    symbols = (one for rule in grammar.rules for one in rule.expansion if one.is_term)
    kept = {one.name for one in symbols if not one.filter_out}
    assert kept == keys_lexer().meant - IGNORED


def test_what_is_listed_of_terminals_is_in_the_grammar():
    assert {one.name for one in keys_lexer().tables.terminals} >= LISTED


@pytest.fixture(scope="module")
def statements():
    """The statements of many files, by rule."""
    found = defaultdict(list)
    for text in FILES:
        for one in every_statement(tree_of(SourceText("x", text))):
            found[one.rule].append(one)
    return found


def test_the_files_have_every_statement_that_is_known_and_no_other(statements):
    assert statements.keys() - BLOCKS.keys() == STATEMENTS.keys()


def test_a_statement_is_its_parts_and_each_of_them_has_a_name_of_its_own(statements):
    for statement in (one for some in statements.values() for one in some):
        assert joined(statement, statement.parts, statement.tail) == statement
        ids = [part.id for part in statement.parts]
        assert () not in ids and (len(set(ids)) == len(ids) or KEYS in ids), statement
        assert all(one.terminal for part in statement.parts for one in words_in(part.text))


def said(text):
    made = formatted(SourceText("x", text))
    assert made.text is not None, made.findings
    return [line for line in made.text.splitlines() if "version" in line or "debounce" in line]


def test_a_planted_statement_is_laid_out_with_the_others(plant, monkeypatch):
    plant(*VERSION)
    monkeypatch.setitem(STATEMENTS, "version", PLANTED)
    assert said(with_version('version   1.2 ,note   "tried"', "debounce 5ms")) == [
        '  version    1.2, note "tried"',
        "  debounce   5 ms",
    ]


def test_a_planted_statement_is_merged_part_by_part(plant, monkeypatch):
    plant(*VERSION)
    monkeypatch.setitem(STATEMENTS, "version", PLANTED)
    base = with_version('version 1.2, note "tried"')
    ours, theirs = base.replace("1.2", "1.3"), base.replace("tried", "built")
    merged = merge(base, ours, theirs)
    assert merged is not None
    assert (merged.text, merged.conflicts) == (ours.replace("tried", "built"), ())


def with_version(*statements):
    head = "  controller stick-32u4\n"
    assert head in WHOLE
    return WHOLE.replace(head, head + "".join(f"  {one}\n" for one in statements))


MERGED_BY_CELL = {"entries", "picture_line"}
"""Lines of a layer, which `tests/merge/test_generated.py` changes cell by cell."""


@pytest.mark.few(22)
@pytest.mark.parametrize("rule", sorted({*STATEMENTS, *BLOCKS} - MERGED_BY_CELL))
def test_what_two_sides_change_in_two_parts_of_a_statement_is_merged(statements, rule):
    """Of any two statements of a kind, one becomes the other: each side brings half of it."""
    chance = random.Random(rule)
    tried = 0
    for _ in range(200):
        base, other = (chance.choice(statements[rule]) for _ in range(2))
        new = {part.id: part for part in other.parts}
        alike = [part.id for part in base.parts if part.id in new]
        if [id for id in new if id in alike] != alike or KEYS in alike:
            continue
        mine = {id for id in alike if chance.random() < 0.5}
        ours, theirs = (with_parts(base, new, ids) for ids in (mine, {*alike} - mine))
        merged = merged_statement(base, ours, theirs, "ours")
        assert merged.clashes == ()
        assert merged.statement.words == with_parts(base, new, {*alike}).words
        tried += 1
    assert tried > 20


def with_parts(base, new, ids):
    parts = [changed(new[one.id], lead=one.lead) if one.id in ids else one for one in base.parts]
    return joined(base, parts, base.tail)
