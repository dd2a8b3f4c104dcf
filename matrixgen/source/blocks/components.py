"""What is wired besides the matrix, and has pins of its own: lights and knobs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from matrixgen.model.component import PINS_OF, Component, ComponentKind
from matrixgen.model.knob import Knob
from matrixgen.model.light import Light
from matrixgen.model.text import Word
from matrixgen.record import Record
from matrixgen.source.blocks.knobs import knob_of
from matrixgen.source.blocks.lights import light_of
from matrixgen.source.blocks.pins import Ends, check_pins
from matrixgen.source.names import KNOB, LIGHT, NameKind, Names
from matrixgen.source.reporter import Reporter, tokens

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node


class WiredComponents(Record):
    """The lights and knobs of a block `wiring`, and the pins of each by `Component.called`."""

    lights: tuple[Light, ...]
    knobs: tuple[Knob, ...]
    pins: Ends


NO_COMPONENTS = WiredComponents((), (), {})
"""Those of a file without a block `wiring`."""


def components_of(
    reporter: Reporter, parts: Sequence[Node], layers: Sequence[str]
) -> WiredComponents:
    """Return the lights and knobs of a block `wiring`; `layers` are the names of all layers."""
    lights = [light_of(reporter, part, layers) for part in parts if part.data == "light"]
    knobs = [knob_of(reporter, part) for part in parts if part.data == "knob"]
    _check_names(reporter, lights, LIGHT, reporter.limits.lights)
    _check_names(reporter, knobs, KNOB, reporter.limits.knobs)
    made = zip((*lights, *knobs), (*_of(parts, "light"), *_of(parts, "knob")), strict=True)
    pins = {one.called: _pins(reporter, part, PINS_OF[one.kind]) for one, part in made}
    return WiredComponents(
        tuple(lights), tuple(knobs), {name: ends for name, ends in pins.items() if ends}
    )


def check_component_pins(
    reporter: Reporter, wired: WiredComponents, controllers: tuple[Word, ...]
) -> None:
    """Report the lights, and the knobs, with pins, but not on each controller."""
    units: dict[ComponentKind, str] = {"light": "pin", "knob": "pair of pins"}
    for kind, unit in units.items():
        of_kind = (one for one in (*wired.lights, *wired.knobs) if one.kind == kind)
        ends = {one.name.text: wired.pins.get(one.called, ()) for one in of_kind}
        check_pins(reporter, ends, controllers, kind, unit)


def _of(parts: Iterable[Node], rule: str) -> list[Node]:
    return [part for part in parts if part.data == rule]


def _check_names(reporter: Reporter, found: Sequence[Component], kind: NameKind, most: int) -> None:
    names = Names(reporter, kind)
    for one in found:
        names.define(one.name)
    reporter.at_most(most, [one.name.span for one in found], kind.word, "a keyboard")


def _pins(reporter: Reporter, part: Node, each: int) -> tuple[tuple[Word, ...], ...]:
    """Return the pins on each controller, so many together."""
    words = [reporter.word(token) for token in tokens(part, "PIN")]
    return tuple(tuple(words[at : at + each]) for at in range(0, len(words), each))
