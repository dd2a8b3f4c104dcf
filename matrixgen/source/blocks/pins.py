"""Whether each wire, light and knob has its pins on each controller of the file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.model.prose import counted, quoted
from matrixgen.model.text import Span, Word
from matrixgen.record import Record
from matrixgen.source.reporter import Reporter

FEW = 6
"""How many lines a help names."""

Ends = Mapping[str, tuple[tuple[Word, ...], ...]]
"""The pins of each of one kind by its name: those on each controller, which stand together."""


def one_pin_each(pins: Mapping[str, tuple[Word, ...]]) -> Ends:
    """Return the pins of what has one pin on each controller."""
    return {name: tuple((pin,) for pin in ends) for name, ends in pins.items()}


class _Odd(Record):
    """Something with pins, but not on each controller, and where that shows."""

    name: str
    pins: int
    span: Span


def check_pins(
    reporter: Reporter,
    ends: Ends,
    controllers: tuple[Word, ...],
    kind: str = "wire",
    unit: str = "pin",
) -> None:
    """Report those of a kind with pins, but not a `unit` for each controller, once for all of them.

    Nothing is said while the controllers themselves are in doubt.
    """
    if not controllers or len({word.text for word in controllers}) < len(controllers):
        return
    odd = list(_odd_ends(ends, len(controllers)))
    if not odd:
        return
    first, want = odd[0], counted(len(controllers), "controller")
    alike = [line for line in odd if line.pins == first.pins]
    whose = f"`{first.name}` is" if len(odd) == 1 else f"{counted(len(odd), kind)} are"
    have = counted(first.pins, unit) if len(alike) == len(odd) else "other numbers of pins"
    each = " each" if len(odd) > 1 and len(alike) == len(odd) else ""
    reporter.report(
        "pins-not-per-controller",
        first.span,
        f"{whose} on {have}{each}, for {want}",
        help=_helps(controllers, odd, kind, unit),
        about=(line.name for line in odd),
    )


def _odd_ends(ends: Ends, want: int) -> Iterator[_Odd]:
    for name, pins in ends.items():
        if len(pins) in (0, want):
            continue
        spare = pins[min(want, len(pins) - 1)]
        last = pins[-1] if len(pins) > want else spare
        yield _Odd(name, len(pins), spare[0].span.to(last[-1].span))


def _helps(controllers: tuple[Word, ...], odd: list[_Odd], kind: str, unit: str) -> list[str]:
    if len(controllers) == 1 and kind != "wire":
        return [f"name the {unit} on `{controllers[0]}` alone"]
    if len(controllers) == 1:
        return ["put a space, not a comma, between the pin and the first key"]
    names = quoted(line.name for line in odd) if len(odd) <= FEW else f"these {len(odd)} {kind}s"
    each = "" if len(odd) == 1 else "each of "
    return [
        f"{each}{names} needs {counted(len(controllers), unit)} after `on`, with commas between",
        *(f"number {place} is the {unit} on `{name}`" for place, name in enumerate(controllers, 1)),
    ]
