"""Lengths on the plate that look like millimetres: they are key units, of 19.05 mm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matrixgen.model.text import Span
from matrixgen.source.reporter import Reporter

if TYPE_CHECKING:
    from matrixgen.source.syntax import Token

UNIT_MM = 19.05
"""A key unit, three quarters of an inch (common practice, no source)."""

USUAL_MM = (14, 17, 18, 19, *(UNIT_MM * quarters / 4 for quarters in range(2, 9)))
"""The cut-out, distances between keys, and key widths of a half to two units in millimetres."""

_LEAST = 9
"""Below it a number is more likely in key units."""

_ROUNDING = 0.006
"""Half of the last of two decimals, and what a binary fraction adds."""


def position(reporter: Reporter, number: Token) -> float:
    """Return a place on the plate; report one that is too far away."""
    reach = reporter.limits.plate_reach
    return reporter.number_in(number, -reach, reach, "this position").value


def place(reporter: Reporter, numbers: Sequence[Token]) -> list[float]:
    """Return both places of a point; report one that is in millimetres, or too far away.

    It looks like millimetres if it is a number of quarters of a key unit in them.
    """
    for number in numbers:
        if _is_in_millimetres(float(number)):
            _report(reporter, number, reporter.span(number), "this position")
    return [position(reporter, number) for number in numbers]


def check_corners(reporter: Reporter, numbers: Sequence[Token]) -> None:
    """Report the first of many numbers that looks like millimetres, if half of the large ones do.

    A few of many look so by chance.
    """
    large = [number for number in numbers if abs(float(number)) >= _LEAST]
    found = [number for number in large if _is_in_millimetres(float(number))]
    if found and 2 * len(found) >= len(large):
        _report(reporter, found[0], reporter.span(found[0]), "this position")


def _is_in_millimetres(place: float) -> bool:
    quarters = abs(place) / UNIT_MM * 4
    is_millimetres = abs(quarters - round(quarters)) < _ROUNDING and place * 4 % 1
    return abs(place) >= _LEAST and bool(is_millimetres)


def check_unit(reporter: Reporter, digits: str, span: Span, what: str) -> None:
    """Report a length that is a usual one in millimetres."""
    length = float(digits)
    if length < _LEAST or not any(abs(length - usual) < _ROUNDING for usual in USUAL_MM):
        return
    _report(reporter, digits, span, what)


def _report(reporter: Reporter, digits: str, span: Span, what: str) -> None:
    units = float(digits) / UNIT_MM * 4
    is_exact = abs(units - round(units)) < 0.02
    size = f"{digits} mm is {round(units) / 4:g}" if is_exact else "a key is 1 wide"
    reporter.report(
        "length-in-millimetres",
        span,
        f"{what} is {digits} key units, and looks like millimetres",
        help=f"lengths are in key units: {size}",
        about=[digits],
    )
