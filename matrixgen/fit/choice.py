"""Which of a keyboard's matrices to take on certain controllers."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from matrixgen.boards.profile import FREE_COST, NOTHING_COST
from matrixgen.fit.shapes import Shape, Size
from matrixgen.record import Record

CostOf = Callable[[Size], int | None]
"""What the dearest pin of a matrix of this size asks for (`Pin.cost`); None with too few pins."""


class Choice(Record):
    """The matrix to take, what its dearest pin asks for, and one that does on free pins, if any."""

    shape: Shape
    cost: int
    on_free_pins: Shape | None

    @property
    def is_on_free_pins(self) -> bool:
        """Whether it gives up no second duty."""
        return self.cost <= FREE_COST


def choose(shapes: Sequence[Shape], cost_of: CostOf) -> Choice | None:
    """Return the matrix to take of some, the first of which is the keyboard as it is; None if none.

    None is taken of which another, for which there are pins as well, has no more pins, jumpers and
    wire, and less of one. The matrix as it is stays if its pins leave nothing to do; else that one
    is taken, the first, whose pins ask for least.
    """
    costs = {shape.size: cost_of(shape.size) for shape in shapes}
    fitting = [shape for shape in shapes if costs[shape.size] is not None]
    good = [one for one in fitting if not any(other.is_better_than(one) for other in fitting)]
    if not good:
        return None

    def cost(shape: Shape) -> int:
        return max(FREE_COST, costs[shape.size] or 0)

    cheapest = min(good, key=cost)
    taken = good[0] if good[0] is shapes[0] and cost(good[0]) <= NOTHING_COST else cheapest
    return Choice(taken, cost(taken), cheapest if cost(cheapest) <= FREE_COST else None)
