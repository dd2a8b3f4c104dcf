"""What the rules about a time that is hardly of use have in common."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Number, Problem


def impractical(
    problem: Problem,
    given: Number | None,
    practical: tuple[int, int],
    unit: str,
    catches: tuple[str, str],
) -> Iterator[Diagnostic]:
    """Yield one finding where a time is given that is outside of the practical range.

    `catches` are what comes of a time that is too short, and of one that is too long.
    """
    least, most = practical
    if given is None or least <= given.value <= most:
        return
    too_long = given.value > most
    yield problem.at(
        given.span,
        f"{given.value:g} {unit} is very {'long' if too_long else 'short'}",
        help=f"{least} to {most} {unit} is of practical use",
        notes=[Note(catches[too_long])],
    )
