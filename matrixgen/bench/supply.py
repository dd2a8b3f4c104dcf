"""A wire on the supply in words: which, and that one unplugs first."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.bench.protocol import BenchProblem, HeldHigh
from matrixgen.boards import Mounted
from matrixgen.model.prose import listed

MEASURE = (
    "unplug, and measure with no cable plugged in: there must be no continuity from any wire to "
    "VCC, RAW or 5 V"
)
OTHER_WIRE = (
    "it is the other wire of the key that was pressed that lies on the supply, perhaps instead of "
    "on its own pin"
)


def supply_problem(controllers: Iterable[Mounted], held: HeldHigh) -> BenchProblem:
    """Return what is wrong, by the names of the wires on a file's controller of that chip."""
    on = next((one for one in controllers if one.profile.chip == held.chip), None)
    shown = listed([_shown(on, pin) for pin in held.pins])
    is_one = len(held.pins) == 1
    if held.is_late:
        joined = f"a key joins {shown} to the supply"
        return BenchProblem(f"unplug now: {joined}", OTHER_WIRE, MEASURE)
    lies = "lies" if is_one else "lie"
    return BenchProblem(f"unplug now: {shown} {lies} on the supply", MEASURE)


def _shown(on: Mounted | None, name: str) -> str:
    """Return a pin's wire and its name, or the name alone where no wire of the file is on it."""
    pin = on.profile.pin(name) if on else None
    if on is None or pin is None:
        return f"the pin `{name}`"
    wire = next((one.line for one in on.wired if one.pin.name == pin.name), None)
    if wire is None:
        return f"the pin `{pin.name}`"
    return f"the {wire.axis} `{wire.name.text}` on `{pin.name}`"
