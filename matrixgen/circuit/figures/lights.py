"""The figures of each light: its resistor, and the current at both ends of the supply."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.boards import Mounted
from matrixgen.circuit.figures.figure import Figure, Input, Section, Source, of_profile
from matrixgen.circuit.lights import LightCurrent, light_currents
from matrixgen.model import Light

OF_COLOUR = "forward voltages by colour: the language's reference has their sources"
SERIES = Source("values of resistors", "IEC 60063, series E12")


def light_sections(mounted: Mounted) -> Iterator[Section]:
    """Yield the figures of each light that is on a pin."""
    for one in light_currents(mounted):
        light = one.light
        found = (_resistor(one), _most(one), _least(one, mounted))
        yield Section(f"Light {light.name}: {light.colour}, to {light.side}", found)


def _forward(light: Light, place: int) -> Input:
    return Input(
        symbol=("V_F_min", "V_F_max")[place],
        value=light.forward[place],
        unit="V",
        says=("the least", "the greatest")[place] + " forward voltage of the LED",
        source=Source(f"a {light.colour} LED", OF_COLOUR),
    )


def _resistor(one: LightCurrent) -> Figure:
    return Figure(
        symbol="R_light",
        value=one.ohm if one.ohm else "none",
        unit="ohm",
        says="in series with the LED: the next value of the series E12",
        formula="(V_max - V_F_min) / I_limit",
        inputs=(
            Input(symbol="V_max", value=one.supply[1], unit="V", says="the most supply"),
            _forward(one.light, 0),
            Input(symbol="I_limit", value=one.limit, unit="A", says="the current that it may have"),
        ),
        source=SERIES,
    )


def _most(one: LightCurrent) -> Figure:
    return Figure(
        symbol="I_most",
        value=one.most,
        unit="A",
        says="at the most supply, by an LED that takes the least of it",
        formula="(V_max - V_F_min) / R_light",
    )


def _least(one: LightCurrent, mounted: Mounted) -> Figure:
    return Figure(
        symbol="I_least",
        value=one.least,
        unit="A",
        says="at the least supply, by an LED and a pin that take the most of it",
        formula="(V_min - V_F_max) / (R_light + R_pin)",
        inputs=(
            Input(symbol="V_min", value=one.supply[0], unit="V", says="the least supply"),
            _forward(one.light, 1),
            Input(
                symbol="R_pin",
                value=one.pin_ohm,
                unit="ohm",
                says="of the pin, at most"
                + ("" if one.light.side == "supply" else "; half as much again while it is high"),
                source=of_profile(mounted.profile, "output_low"),
            ),
        ),
    )
