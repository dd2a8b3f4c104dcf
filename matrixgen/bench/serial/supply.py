"""A wire on the supply in words: which, and that one unplugs first."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.bench.serial.protocol import HeldHigh
from matrixgen.boards import Mounted
from matrixgen.failure import Failure
from matrixgen.model import Line
from matrixgen.model.prose import listed

MEASURE = (
    "unplug, and measure with no cable plugged in: there must be no continuity from any wire to "
    "VCC, RAW or 5 V"
)
OTHER_WIRE = (
    "it is the other wire of the key that was pressed that lies on the supply, perhaps instead of "
    "on its own pin"
)

PART = (
    "a pin without a wire may be held high by a part of the board: if it is, give the pin that "
    "`part` in the controller's profile, and the bench firmware leaves it alone"
)


def supply_problem(controllers: Iterable[Mounted], held: HeldHigh) -> Failure:
    """Return what is wrong, by the names of the wires on a file's controller of that chip."""
    on = next((one for one in controllers if one.profile.chip == held.chip), None)
    shown = listed([_shown(on, pin) for pin in held.pins])
    is_one = len(held.pins) == 1
    if held.is_late:
        joined = f"a key joins {shown} to the supply"
        return Failure(f"unplug now: {joined}", OTHER_WIRE, MEASURE)
    lies = "lies" if is_one else "lie"
    has_wires = all(_wire_on(on, pin) for pin in held.pins)
    helps = (MEASURE,) if has_wires else (MEASURE, PART)
    return Failure(f"unplug now: {shown} {lies} on the supply", *helps)


def _wire_on(on: Mounted | None, name: str) -> Line | None:
    """Return the wire of the file that is on a pin, by whichever of its names."""
    pin = on.profile.pin(name) if on else None
    if on is None or pin is None:
        return None
    return next((one.line for one in on.wired if one.pin.name == pin.name), None)


def _shown(on: Mounted | None, name: str) -> str:
    """Return a pin's wire and its name, or the name alone where no wire of the file is on it."""
    wire = _wire_on(on, name)
    if wire is None:
        return f"the pin `{name}`"
    return f"the {wire.axis} `{wire.name.text}` on `{name}`"
