"""Each word of each example, once it is taken out, is among the first that are offered there.

What nothing else knows cannot be: numbers, texts, and names that only their own statement has.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest

from matrixgen.editor.file_words import FileWords, WordAt
from matrixgen.editor.finite import words_of_terminal
from matrixgen.editor.offers import offers_at
from matrixgen.editor.open_file import OpenText
from matrixgen.model import SourceText
from matrixgen.source.lexer import keys_lexer
from matrixgen.source.tree_reader import tree_of
from tests.amounts import IS_LONG, amount

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(ROOT.glob("examples/*/*.keys"))
PLACES = amount("MATRIXGEN_OFFERS", suite=120, long=10**6)
FEW = 40
"""Places of which a share says nothing."""

COINED = ("STRING", "NUMBER", "SIZE", "GAP", "USB_IDS", "COMMA", "EQUAL", "X")
EVERY, DOES, OTHERS = "every word", "what a key does", "all others"
LEAST = {EVERY: (0.973, 0.985), DOES: (0.93, 0.96), OTHERS: (0.979, 0.99)}
"""The shares among the first three and the first ten that are to be kept."""


def words(path: Path) -> list[WordAt]:
    """The words of a file that are known to something else than their own statement."""
    text = path.read_text(encoding="utf-8")
    every = FileWords(str(path), tree_of(SourceText(str(path), text)))
    count = Counter(one.text for one in every.all)
    names = {id(one) for some in every.defined.values() for one in some}
    return [
        one
        for one in every.all
        if one.terminal not in COINED
        and not (id(one) in names and count[one.text] == 1 and one.terminal != "KEY")
    ]


def place_in_offers(path: Path, one: WordAt) -> int:
    lines = path.read_text(encoding="utf-8").split("\n")
    line, span = lines[one.span.line - 1], one.span
    lines[span.line - 1] = line[: span.column - 1] + line[span.end_column - 1 :]
    text = OpenText(str(path), path.parent, "\n".join(lines))
    offered = [offer.text for offer in offers_at(text, span.line, span.column)]
    return offered.index(one.text) if one.text in offered else len(offered) + 10**6


def shares(paths: list[Path], most: int) -> Iterator[tuple[str, tuple[int, float, float]]]:
    """Of some places: how many there are, and the shares among the first three and ten."""
    each = [(path, one) for path in paths for one in words(path)]
    found: dict[str, list[int]] = defaultdict(list)
    for path, one in each[:: max(1, len(each) // most)]:
        place = place_in_offers(path, one)
        for kind in (EVERY, DOES if one.terminal == "CELL" else OTHERS):
            found[kind].append(place)
    for kind, places in found.items():
        three, ten = (sum(place < first for place in places) / len(places) for first in (3, 10))
        yield kind, (len(places), three, ten)


def lines_of(found: dict[str, tuple[int, float, float]]) -> Iterator[str]:
    for kind, (count, three, ten) in found.items():
        yield f"{kind:<16} {count:>5} places, {three:.1%} in the first three, {ten:.1%} in ten"


def test_a_word_that_was_taken_out_is_offered_among_the_first():
    found = dict(shares(EXAMPLES, PLACES))
    print("\n".join(lines_of(found)))
    for kind, (count, *reached) in found.items():
        few = 0 if IS_LONG else 0.06  # some places are odd ones
        assert count <= FEW or all(a >= b - few for a, b in zip(reached, LEAST[kind], strict=True))


def _open(text: str) -> OpenText:
    return OpenText("a.keys", ROOT, text)


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ('keyboard "A"\n  |', "controller"),
        ("|", "plate"),
        ("plate\n  line A B C\nwiring\n  row r0 A |\n", "B"),
        ("plate\n  line A B C\nwiring\n  row r0 A B\n  row |\n", "r1"),
        ('keyboard "A"\n  computer de on |\n', "linux"),
        ("layer base\n  A = hold layer nav\nlayer |\n", "nav"),
        ("plate\n  line A B\n  hole at 1, 1 for |\n", "M2"),
        ("plate\n  line A\nwiring\n  drive |\n", "columns"),
        ('keyboard "A"\n  controller stick-32u4\nplate\n  line A\nwiring\n  row a on |', "PC6"),
        ("plate\n  line A B\nlayer base\n  A = Ctrl+|\n", "Ctrl+C"),
        ("plate\n  line A B\nlayer base\n  A = tap |, hold Shift\n", "A"),
        ("plate\n  line A B\nlayer base\n  A = B, with Shift |\n", "Shift+B"),
        ("plate\n  line I J K L\nlayer nav\n  J = Left  K = Down  L = |\n", "Right"),
        ("plate\n  line X C V\nlayer nav\n  X = Ctrl+X  C = Ctrl+C  V = |\n", "Ctrl+V"),
        ("plate\n  line North\nlayer base\n  North = |\n", "PointerUp"),
        ('keyboard "A"\n  computer pt\nplate\n  line Euro\nlayer base\n  Euro = |\n', "€"),
        ("plate\n  line A Menu B\nlayer base\n  Menu = hold layer x\nlayer x\n  B = |\n", "Menu"),
        ("plate\n  line A B C\nlayer x\n  A = 1\n  | = tap C, hold Shift\n", "C"),
        ("plate\n  line A\n  knob dial at 2, 0\nlayer base\n  |", "dial.left"),
        ("plate\n  line A\nwiring\n  light dot on PD0 |\n", "red"),
    ],
)
def test_the_first_word_that_is_offered(text, first):
    before, after = text.split("|")
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    offered = [one.text for one in offers_at(_open(before + after), line, column)]
    assert first in offered[:4], offered[:9]


def test_letters_of_the_computer_s_layout_are_offered():
    text = 'keyboard "A"\n  computer de\nplate\n  line A\nlayer base\n  A = \n'
    assert "ö" in [one.text for one in offers_at(OpenText("a.keys", ROOT, text), 6, 7)]


def test_nothing_is_offered_in_a_comment_and_nothing_raises_anywhere():
    assert offers_at(OpenText("a.keys", ROOT, "plate  # "), 1, 10) == []
    path = EXAMPLES[0]
    text = OpenText(str(path), path.parent, path.read_text(encoding="utf-8"))
    for line in range(1, len(text.source.lines) + 1, 7):
        for column in range(1, len(text.source.line(line)) + 2, 9):
            offers_at(text, line, column)


def test_a_terminal_of_few_words_has_them_from_the_grammar_alone():
    assert words_of_terminal("AXIS") == ("columns", "rows")
    assert words_of_terminal("DECIDER") == ("time", "press", "release")
    for one in keys_lexer().tables.terminals:
        for word in words_of_terminal(one.name):
            assert keys_lexer().every.match(f"{word} ", 0)
