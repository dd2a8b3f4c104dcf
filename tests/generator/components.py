"""Lights and knobs: on the plate, in the block `wiring`, or in both, up to their limits."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from matrixgen.model.component import PINS_OF
from matrixgen.model.knob import STATES
from matrixgen.model.light import LIGHT_COLOURS, LOCKS
from matrixgen.source.limits import LIMITS
from tests.generator.words import names, number

Component = tuple[str, str]
"""A kind and a name."""


def components(chance: Random, *, most: int, many: bool) -> list[Component]:
    """Which lights and knobs a file has, so that they need at most so many pins."""
    lights, knobs = (
        chance.choice((0, 1, 3, *[limit] * many)) for limit in (LIMITS.lights, LIMITS.knobs)
    )
    locks = chance.sample(LOCKS, min(lights, chance.randint(0, len(LOCKS))))
    called = names(chance, max(lights, knobs), "part")
    of_layers = [name for name in called if name.casefold() not in map(str.casefold, LOCKS)]
    found = [("light", name) for name in (*locks, *of_layers)[:lights]]
    found += [("knob", name) for name in called[:knobs]]
    while sum(PINS_OF[kind] for kind, _ in found) > most:
        found.pop()
    return found


def places(chance: Random, found: Sequence[Component], *, sound: bool) -> list[str]:
    """The statements of the plate; some may have no place."""
    some = [one for one in found if chance.random() < 0.8]
    near = (0, -1, 0.25, 12.125, chance.uniform(-9, 9), *[LIMITS.plate_reach] * (not sound))
    return [
        f"{kind} {name} at {number(chance.choice(near))}, {number(chance.choice(near))}"
        for kind, name in some
    ]


def wired(
    chance: Random,
    found: Sequence[Component],
    pins: Sequence[Sequence[str]],
    layers: Sequence[str],
    *,
    sound: bool,
) -> list[str]:
    """The statements of the block `wiring`; `pins` has those of each controller that are left.

    What shows a layer is not there without one.
    """
    lines = []
    used = 0
    for kind, name in found:
        of_one = range(used, used + PINS_OF[kind])
        is_on = all(of_one.stop <= len(board) for board in pins) and bool(pins)
        pairs = [" ".join(board[place] for place in of_one) for board in pins] if is_on else []
        on = f" on {', '.join(pairs)}" if is_on and (sound or chance.random() < 0.5) else ""
        if kind == "light" and (name in LOCKS or layers):
            lines.append(f"light {name}{on}{_light(chance, name, layers)}")
            used = of_one.stop
        elif kind == "knob":
            states = chance.choice(("", *(f" with {number} states a step" for number in STATES)))
            lines.append(f"knob {name}{on}{states}")
            used = of_one.stop
    return lines if sound else [line for line in lines if chance.random() < 0.9]


def _light(chance: Random, name: str, layers: Sequence[str]) -> str:
    volts = chance.choice((1.85, 2, 2.8, LIMITS.least_volts, LIMITS.volts))
    current = chance.choice((2, 0.5, LIMITS.least_milliamperes, LIMITS.milliamperes))
    said = [
        f" {chance.choice([*LIGHT_COLOURS])}" * chance.randrange(2),
        f" {number(volts)} V" * chance.randrange(2),
        f" at {number(current)} mA" * chance.randrange(2),
        chance.choice(("", " to ground", " to supply")),
    ]
    if name not in LOCKS:
        some = chance.sample(layers, min(len(layers), chance.choice((1, 1, 2, 3))))
        said.append(f" while {' and '.join(some)} {chance.choice(('is', 'are'))} on")
    return "".join(said)
