"""Cells that are to their key as other cells of the layer are to theirs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from matrixgen.editor.offers.cells.around import CellsAround, Votes
from matrixgen.editor.offers.cells.sent import apart, sent_by
from matrixgen.model.plate import stem_of
from matrixgen.usages import is_word, usage_of
from matrixgen.usages.us_layout import NUMBERS

MOST, EACH, BESIDE = 6.0, 1.5, 3.0


def as_the_rest(around: CellsAround) -> Votes:
    """Yield what this key does if it does what others do: Ctrl and its letter, its digit."""
    kinds = Counter(kind for key, cell in around.cells.items() for kind in _kinds(key, cell))
    near = {kind for key in _near(around) for kind in _kinds(key, around.cells.get(key, ""))}
    for kind, count in kinds.items():
        made = _made(kind, around)
        yield made, min(MOST, count * EACH) + (BESIDE if kind in near else 0)


def _near(around: CellsAround) -> list[str]:
    place = around.order.index(around.key) if around.key in around.order else 0
    return around.order[max(place - 1, 0) : place] + around.order[place + 1 : place + 2]


def _kinds(key: str, cell: str) -> Iterator[str]:
    """Yield how a cell comes from the name of its key."""
    stem = stem_of(key)
    modifiers, last = apart(cell)
    if is_word(stem) and modifiers and last == sent_by(stem):
        yield modifiers
    if not is_word(stem) and cell == stem[:1].upper():
        yield "initial"
    digit = digit_of(stem)
    if digit and cell in (digit, f"F{digit}", f"Keypad{digit}") and cell != sent_by(stem):
        yield cell.removesuffix(digit) or "digit"


def _made(kind: str, around: CellsAround) -> str:
    if kind == "initial":
        return "" if around.own else around.stem[:1].upper()
    if kind.endswith("+"):
        return kind + around.own if around.own else ""
    digit = digit_of(around.stem)
    return ("" if kind == "digit" else kind) + digit if digit else ""


def digit_of(stem: str) -> str:
    """Return the digit of a key for one, also on the keypad; nothing for other keys."""
    if len(stem) == 1 and stem.isdigit():
        return stem
    found = NUMBERS.get(usage_of(stem) or 0, "")
    return found if found.isdigit() else ""
