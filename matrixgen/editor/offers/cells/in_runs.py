"""Cells that go on with their neighbours: digits, function keys, letters, equal cells."""

from __future__ import annotations

from functools import cache

from matrixgen.editor.offers.cells.around import CellsAround, Votes
from matrixgen.editor.offers.cells.sent import apart, key_of_sign
from matrixgen.editor.offers.neighbours import ROWS
from matrixgen.source.blocks.pictures import SEE_THROUGH

DIGITS = tuple("1234567890")
PUNCTUATION = tuple(map(key_of_sign, "-=[]\\;'`,./"))

ORDERS = (
    tuple(f"F{number}" for number in range(1, 25)),
    DIGITS,
    *(tuple(f"Keypad{one}" for one in row) for row in ("123", "456", "789")),
    *(tuple(map(key_of_sign, row)) for row in (f"{ROWS[0]}\\", *ROWS[1:3])),
    PUNCTUATION,
)
"""What follows what."""

IN_BLOCK = 3
"""Digits that a block of digits has in each of its rows: above 4 is 7, and above 1 is 4."""

SURE, LIKELY, MAYBE = 6.0, 3.0, 1.0


@cache
def _orders(key: str) -> tuple[tuple[str, ...], ...]:
    return tuple(order for order in ORDERS if key in order)


def moved(sent: str, step: int) -> list[str]:
    """Return what is so many steps from something in its orders, modifiers as they are."""
    before, key = apart(sent)
    found = []
    for order in _orders(key):
        place = order.index(key) + step
        if 0 <= place < len(order) and before + order[place] not in found:
            found.append(before + order[place])
    return found


def steps(first: str, second: str) -> int | None:
    """Return how many steps it is from one to the other, if both are in one order."""
    (before, one), (behind, other) = apart(first), apart(second)
    order = next((order for order in _orders(one) if other in order), None)
    return order.index(other) - order.index(one) if order and before == behind else None


def in_runs(around: CellsAround) -> Votes:
    """Yield what goes on with a run along the line of the plate, or along the statement."""
    for near, weight in ((lambda place: around.beside(0, place), 1.0), (around.listed, 0.9)):
        for way in (1, -1):
            one, next_one = near(-way), near(-2 * way)
            step = steps(next_one, one) if next_one else None
            if one and step in (1, -1):
                yield from ((found, SURE * weight) for found in moved(one, step))
            elif one:
                yield from ((found, LIKELY * weight) for found in moved(one, way))
                yield from ((found, MAYBE * weight) for found in moved(one, -way))


def _is_repeated(around: CellsAround, one: str) -> bool:
    return one not in ("", SEE_THROUGH) and not _orders(apart(one)[1])


def like_its_neighbours(around: CellsAround) -> Votes:
    """Yield the same again, where neighbours are the same."""
    left, right = around.beside(0, -1), around.beside(0, 1)
    if left and left == right:
        yield left, SURE
    for one, other in ((left, around.beside(0, -2)), (right, around.beside(0, 2))):
        if one and one == other:
            yield one, LIKELY + MAYBE
        elif one == SEE_THROUGH or _is_repeated(around, one):
            yield one, MAYBE / 2


def in_columns(around: CellsAround) -> Votes:
    """Yield what is to the row above, or below, as the columns beside it are."""
    for row in (-1, 1):
        there = around.beside(row, 0)
        for place in (-1, 1):
            across, near = around.beside(row, place), around.beside(0, place)
            step = steps(across, near) if across and near else None
            if there and step is not None:
                yield from ((found, LIKELY + MAYBE) for found in moved(there, step))
            elif there and near and across == near:
                yield there, LIKELY
        if there in DIGITS:
            yield from ((one, MAYBE * 1.5) for one in moved(there, IN_BLOCK * row))
