"""Lights and knobs as the bench reads of them: pins, what is soldered, what it shows."""

from __future__ import annotations

from collections import Counter

from matrixgen.boards import Mounted, Pin
from matrixgen.circuit.lights import LightCurrent, light_current, light_currents
from matrixgen.circuit.units import shown
from matrixgen.model import Component, Keyboard, Knob, Light
from matrixgen.model.knob_keys import knob_keys
from matrixgen.model.prose import listed
from matrixgen.record import Record

KNOB = "knob: an encoder of 11 mm with its cap"
KNOB_TO_PRESS = "knob: an encoder of 11 mm with a switch, and its cap"


class ComponentRow(Record, kw_only=True):
    """A light or a knob: what it is, its pins, how it is soldered, and what it shows or does."""

    kind: str
    name: str
    pins: tuple[Pin, ...]
    soldered: str
    shows: str


def component_rows(mounted: Mounted) -> tuple[ComponentRow, ...]:
    """Return a row for each light and knob whose pins the controller has."""
    components = mounted.keyboard.wiring.components
    return tuple(_row(mounted, one) for one in components if mounted.pins_of(one))


def _row(mounted: Mounted, one: Component) -> ComponentRow:
    return ComponentRow(
        kind=one.kind,
        name=one.name.text,
        pins=mounted.pins_of(one),
        soldered=soldered(mounted, one),
        shows=shows(one),
    )


def shows(one: Component) -> str:
    """Return what a component is for."""
    match one:
        case Light(lock=str(lock)):
            return f"{lock}, as the computer says"
        case Light(layers=layers):
            names = listed(word.text for word in layers)
            return f"layer{'s' * (len(layers) > 1)} {names}"
        case Knob(states=states):
            return f"{states} states a step; what its steps do stands in the layers"
        case _:
            return ""


def soldered(mounted: Mounted, one: Component) -> str:
    """Return from where to where the wires of a component go, in words.

    The longer leg of an LED is its anode, and a flat side marks its cathode: common practice.
    """
    pins = [pin.shown for pin in mounted.pins_of(one)]
    match one:
        case Light():
            resistor = resistor_words(light_current(mounted, one, mounted.pins_of(one)[0]))
            if one.side == "ground":
                return f"{pins[0]}, {resistor}, longer leg (anode); shorter leg to ground"
            return f"supply, {resistor}, longer leg (anode); shorter leg (cathode) to {pins[0]}"
        case Knob():
            return f"leg A to {pins[0]}, leg B to {pins[1]}, the common leg C to ground"
        case _:
            return ""


def resistor_words(current: LightCurrent) -> str:
    """Return the resistor of a light."""
    return f"resistor {shown(current.ohm, 'ohm')}" if current.ohm else "no resistor"


def parts_to_buy(keyboard: Keyboard, mounted: Mounted | None) -> list[tuple[int, str]]:
    """Return how many of which LEDs, resistors and knobs a keyboard needs."""
    lights, knobs = keyboard.wiring.lights, keyboard.wiring.knobs
    found = Counter(f"LED of 3 mm, {light.colour}" for light in lights)
    for one in light_currents(mounted) if mounted else ():
        found.update([f"{resistor_words(one)}, for a light"] if one.ohm else [])
    pressed = len(knob_keys(keyboard.plate))
    found[KNOB] = len(knobs) - pressed
    found[KNOB_TO_PRESS] = pressed
    return [(many, what) for what, many in sorted(found.items()) if many]
