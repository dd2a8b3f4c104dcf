"""The pins of a line: one for each controller of the file."""

from __future__ import annotations

from matrixgen.model.keyboard import Line
from matrixgen.model.span import Word
from matrixgen.source.names import count
from matrixgen.source.reading import Reading


def check_pins(reading: Reading, line: Line, controllers: tuple[Word, ...]) -> None:
    """Report a line with pins, but not one for each controller; not if those are in doubt."""
    have, want = len(line.pins), len(controllers)
    if have in (0, want) or not want or _doubled(controllers):
        return
    spare = line.pins[min(want, have - 1)]
    reading.report(
        "pins-not-per-controller",
        spare.span.to(line.pins[-1].span) if have > want else spare.span,
        f"`{line.name}` is on {count(have, 'pin')}, for {count(want, 'controller')}",
        help=_help(controllers),
    )


def _doubled(controllers: tuple[Word, ...]) -> bool:
    return len({word.text for word in controllers}) < len(controllers)


def _help(controllers: tuple[Word, ...]) -> str:
    if len(controllers) == 1:
        return "a blank, and no comma, stands between the pin and the first key"
    return f"write one pin for each of {', '.join(f'`{word}`' for word in controllers)}"
