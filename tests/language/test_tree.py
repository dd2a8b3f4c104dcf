"""The tree keeps every letter, and files that differ in spacing alone mean the same.

Thousands of generated files, with comments, empty lines, tabs, joints by `and`, line ends of every
system and byte order marks wherever the language lets them stand.
"""

import random
from pathlib import Path

import pytest

from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.record import changed
from matrixgen.source.tree import Piece, every_statement, written
from matrixgen.source.tree_reader import tree_of
from tests.amounts import amount, in_turn, some
from tests.language.spacing import Spacing, statements_of
from tests.language.test_any_file import RICH
from tests.language.whole import WHOLE
from tests.texts import design_in

ROOT = Path(__file__).parents[2]
FILES = sorted([*(ROOT / "examples").rglob("*.keys"), *(ROOT / "tests").rglob("*.keys")])
SYSTEMS = {"unix": "\n", "windows": "\r\n", "old": "\r"}
GENERATED, SEEDS = amount("MATRIXGEN_SPACINGS", suite=160, long=20_000), 8


def name_of(path):
    return str(path.relative_to(ROOT))


SPELLINGS = [(mark, end) for end in SYSTEMS.values() for mark in ("", "\ufeff")]
"""Byte order marks and line ends: in the suite each file has one of them, besides its own."""


@pytest.mark.parametrize(
    ("path", "spelling"),
    some(in_turn(FILES, SPELLINGS), 400),
    ids=lambda one: name_of(one) if isinstance(one, Path) else repr(one),
)
def test_every_file_is_written_as_it_was_read(path, spelling):
    text = path.read_bytes().decode("utf-8")
    mark, end = spelling
    for one in {text, mark + text.replace("\n", end)}:
        assert written(tree_of(SourceText("x", one))) == one


@pytest.mark.parametrize("path", sorted((ROOT / "examples").rglob("*.keys")), ids=name_of)
def test_every_statement_of_a_sound_file_has_its_rule_and_its_comments(path):
    text = path.read_text("utf-8")
    statements = list(every_statement(tree_of(SourceText("x", text))))
    assert all(one.rule for one in statements)
    comments = [comment for one in statements for comment in one.comments]
    assert len(comments) == text.count("#")


def test_what_could_not_be_read_is_a_statement_without_a_rule():
    tree = tree_of(SourceText("x", WHOLE.replace("row    r1", "raw    r1")))
    lost = [one for one in every_statement(tree) if one.rule is None]
    assert [one.words[0] for one in lost] == ["raw"]


def test_lines_before_the_first_block_and_after_the_last_are_kept():
    text = "  lost\n# a\n\nplate\n  line A # b\n\n  # c\n"
    tree = tree_of(SourceText("x", text))
    assert [one.words for one in tree.loose] == [("lost",)]
    assert [piece.text for piece in tree.below if piece.kind == "comment"] == ["# c"]
    assert written(tree) == text


def test_a_word_changed_in_the_tree_is_changed_in_the_text_and_nothing_else():
    tree = tree_of(SourceText("x", RICH))
    for number, block in enumerate(tree.blocks):
        for place, statement in enumerate(block.statements):
            pieces = tuple(
                Piece(one.kind, "X") if one.kind == "word" else one for one in statement.pieces
            )
            new = changed(statement, pieces=pieces)
            lines = (*block.statements[:place], new, *block.statements[place + 1 :])
            other = changed(block, statements=lines)
            blocks = (*tree.blocks[:number], other, *tree.blocks[number + 1 :])
            text = written(changed(tree, blocks=blocks))
            before, after = RICH.splitlines(), text.splitlines()
            touched = [n for n, (a, b) in enumerate(zip(before, after, strict=True), 1) if a != b]
            assert set(touched) <= set(range(statement.line, statement.line + len(after)))
            assert touched and touched[0] == statement.line


PLAIN = [WHOLE, RICH, *(path.read_text("utf-8") for path in (ROOT / "examples").rglob("*.keys"))]
WEIGHTS = [30, 60, *([2] * (len(PLAIN) - 2))]


@pytest.mark.parametrize("seed", range(SEEDS))
def test_generated_files_are_written_back_and_mean_what_the_plain_one_means(seed):
    chance = random.Random(seed)
    plain = [(statements_of(text), meaning_of(design_in(text))) for text in PLAIN]
    for _ in range(GENERATED // SEEDS):
        ((statements, meaning),) = chance.choices(plain, WEIGHTS)
        text = Spacing(chance).text(statements)
        assert written(tree_of(SourceText("x", text))) == text
        assert meaning_of(design_in(text)) == meaning, text
