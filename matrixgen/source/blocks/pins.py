"""Whether each line has a pin on each controller of the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from matrixgen.model.prose import counted, quoted
from matrixgen.model.text import Span, Word
from matrixgen.model.wiring import Line
from matrixgen.record import Record
from matrixgen.source.reporter import Reporter

FEW = 6
"""How many lines a help names."""


class _Odd(Record):
    """A line with pins, but not one for each controller, and where that shows."""

    name: str
    pins: int
    span: Span


def check_pins(
    reporter: Reporter,
    lines: Iterable[Line],
    pins: Mapping[str, tuple[Word, ...]],
    controllers: tuple[Word, ...],
) -> None:
    """Report the lines with pins, but not one for each controller, once for all of them.

    Nothing is said while the controllers themselves are in doubt.
    """
    if not controllers or len({word.text for word in controllers}) < len(controllers):
        return
    odd = list(_odd_lines(lines, pins, len(controllers)))
    if not odd:
        return
    first, want = odd[0], counted(len(controllers), "controller")
    alike = [line for line in odd if line.pins == first.pins]
    whose = f"`{first.name}` is" if len(odd) == 1 else f"{counted(len(odd), 'wire')} are"
    have = counted(first.pins, "pin") if len(alike) == len(odd) else "other numbers of pins"
    each = " each" if len(odd) > 1 and len(alike) == len(odd) else ""
    reporter.report(
        "pins-not-per-controller",
        first.span,
        f"{whose} on {have}{each}, for {want}",
        help=_helps(controllers, odd),
        about=(line.name for line in odd),
    )


def _odd_lines(
    lines: Iterable[Line], pins: Mapping[str, tuple[Word, ...]], want: int
) -> Iterator[_Odd]:
    for line in lines:
        ends = pins.get(line.name.text, ())
        if len(ends) in (0, want):
            continue
        spare = ends[min(want, len(ends) - 1)]
        span = spare.span.to(ends[-1].span) if len(ends) > want else spare.span
        yield _Odd(line.name.text, len(ends), span)


def _helps(controllers: tuple[Word, ...], odd: list[_Odd]) -> list[str]:
    if len(controllers) == 1:
        return ["put a space, not a comma, between the pin and the first key"]
    names = quoted(line.name for line in odd) if len(odd) <= FEW else f"these {len(odd)} wires"
    each = "" if len(odd) == 1 else "each of "
    return [
        f"{each}{names} needs {len(controllers)} pins after `on`, with commas between",
        *(f"number {place} is the pin on `{name}`" for place, name in enumerate(controllers, 1)),
    ]
