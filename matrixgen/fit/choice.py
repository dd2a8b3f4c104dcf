"""Which of a keyboard's matrices to take on certain controllers."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from matrixgen.boards.pin import FREE_COST, NOTHING_COST
from matrixgen.fit.shapes import Shape, Size, better_than
from matrixgen.record import Record

CostOf = Callable[[Size], int | None]
"""What the dearest pin of a matrix of this size asks for (`Pin.cost`); None with too few pins."""


class Choice(Record):
    """The matrix to take, what its dearest pin asks for, and one that does on free pins, if any.

    `cost_as_is` is what the dearest pin of the keyboard as it is asks for; None with too few pins.
    """

    shape: Shape
    cost: int
    on_free_pins: Shape | None
    cost_as_is: int | None


def choose(shapes: Sequence[Shape], cost_of: CostOf) -> Choice | None:
    """Return the matrix to take of some, the first of which is the keyboard as it is; None if none.

    None is taken of which another, for which there are pins as well, has no more pins, jumpers and
    wire, and less of one; where the matrix as it is is such a one, another that is better takes its
    place. The matrix as it is stays if its pins leave nothing to do; else that one is taken, the
    first, whose pins ask for least.
    """
    costs = {shape.size: cost_of(shape.size) for shape in shapes}
    fitting = [shape for shape in shapes if costs[shape.size] is not None]
    good = [shape for shape in fitting if better_than(shape, fitting) is None]
    if not good:
        return None
    as_is = fitting[0] if fitting[0] is shapes[0] else None
    better = [shape for shape in good if as_is and shape.is_better_than(as_is)]

    def cost(shape: Shape) -> int:
        return max(FREE_COST, costs[shape.size] or 0)

    cheapest = min(better or good, key=cost)
    taken = as_is if as_is in good and as_is and cost(as_is) <= NOTHING_COST else cheapest
    on_free_pins = next((shape for shape in good if cost(shape) <= FREE_COST), None)
    return Choice(taken, cost(taken), on_free_pins, cost(as_is) if as_is else None)
