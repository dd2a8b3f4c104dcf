"""The statement `outline`: a margin round all keys, or the plate's own corners."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.geometry import Point
from matrixgen.model.plate import RADIUS_MM, CornerOutline, Outline
from matrixgen.model.rings import meeting
from matrixgen.source.blocks.millimetres import check_corners, position
from matrixgen.source.reporter import Reporter, every_token, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token

DIGITS = 6
"""Digits of a key unit that a length is compared in: the rest is rounding."""

NEAR = 0.001
"""Key units between two sides that are taken to meet: 0.02 mm."""


def outline_of(reporter: Reporter, statement: Node) -> Outline | CornerOutline | None:
    """Return where the plate ends; None where corners make no plate, which is reported."""
    ends, *more = trees(statement)
    numbers, span = every_token(ends), reporter.whole(statement)
    radius = _radius(reporter, more)
    if len(numbers) == 1:
        most = reporter.limits.outline_margin
        margin = reporter.number_in(numbers[0], 0, most, "the margin in mm")
        return Outline(margin=margin.value, radius=radius, span=span)
    places = list(zip(numbers[::2], numbers[1::2], strict=True))
    if not _has_room(reporter, statement, len(places)):
        return None
    check_corners(reporter, numbers)
    corners = [(position(reporter, x), position(reporter, y)) for x, y in places]
    if not _is_sound(reporter, places, corners):
        return None
    return CornerOutline(corners=tuple(corners), radius=radius, span=span)


def _radius(reporter: Reporter, more: Sequence[Node]) -> float:
    most = reporter.limits.outline_radius
    given = [reporter.number_in(every_token(one)[0], 0, most, "the radius in mm") for one in more]
    return given[0].value if given else RADIUS_MM


def _has_room(reporter: Reporter, statement: Node, number: int) -> bool:
    most = reporter.limits.outline_corners
    if number > most:
        message = f"this outline has {number} corners; at most {most} are allowed"
        reporter.report("over-the-limit", reporter.whole(statement), message)
    return number <= most


def _is_sound(
    reporter: Reporter, places: Sequence[tuple[Token, Token]], corners: Sequence[Point]
) -> bool:
    """Whether sides are long enough and meet nowhere else; the first ones that do are reported."""
    spans = [reporter.span(x).to(reporter.span(y)) for x, y in places]
    around = zip(range(len(corners)), corners, (*corners[1:], corners[0]), strict=True)
    for number, (x, y), (u, v) in around:
        if round(max(abs(x - u), abs(y - v)), DIGITS) < reporter.limits.least_side:
            reporter.report(
                "duplicate-corner",
                spans[(number + 1) % len(spans)],
                "this corner of the outline is the same as the one before it",
                help="name each corner once: the outline goes back to the first one by itself",
                notes=[Note("the other one is here", spans[number])],
            )
            return False
    found = meeting(corners, NEAR)
    if found is None:
        return True
    first, second = (
        f"the side from {_at(corners, one)} to {_at(corners, one + 1)}" for one in found
    )
    how = "goes back on" if found[1] - found[0] in (1, len(corners) - 1) else "meets"
    reporter.report(
        "outline-crosses-itself",
        spans[found[1]],
        f"{second} {how} {first}",
        help="name the corners in the order in which one goes round the plate",
        notes=[Note("the other side begins here", spans[found[0]])],
    )
    return False


def _at(corners: Sequence[Point], number: int) -> str:
    x, y = corners[number % len(corners)]
    return f"{x:g}, {y:g}"
