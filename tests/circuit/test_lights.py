"""The resistor of a light and its current at both ends of the supply, beside ngspice."""

from __future__ import annotations

import re
from math import exp

import pytest

from matrixgen.circuit.lights import E12, LightCurrent, light_currents, resistor_for
from matrixgen.model.light import LIGHT_COLOURS
from tests.circuit.spice import THERMAL_VOLTS, run
from tests.firmware.lights import pad

IDEALITY = 2.0
LIGHTS = tuple(
    f"{lock} {colour} at {current} mA to {side}"
    for lock, colour, current, side in (
        ("NumLock", "red", 2, "ground"),
        ("CapsLock", "yellow", 0.5, "supply"),
        ("ScrollLock", "green", 1, "ground"),
        ("Compose", "blue", 2, "supply"),
        ("Kana", "orange", 20, "ground"),
    )
)


def measured(one: LightCurrent, supply: float, forward: float, pin_ohm: float) -> float:
    """The current that ngspice finds, of an LED with that forward voltage at the limit."""
    saturation = one.limit / (exp(forward / (IDEALITY * THERMAL_VOLTS)) - 1)
    netlist = [
        f"VCC vcc 0 {supply}",
        f"RPIN vcc pin {pin_ohm + 1e-6}",
        f"RLIGHT pin led {one.ohm}",
        "DLED led 0 LED",
        f".model LED D(IS={saturation} N={IDEALITY})",
    ]
    printed = run(netlist, ["op", "print i(vcc)"])
    return -float(re.search(r"i\(vcc\) = (\S+)", printed)[1])


@pytest.mark.parametrize("chip", ["stick-32u4", "rp2040-40pin", "at90usb162"])
def test_the_currents_at_both_ends_of_the_supply_are_those_of_a_circuit_simulator(chip):
    found = list(light_currents(pad(chip, LIGHTS)))
    assert found
    for one in found:
        most = measured(one, one.supply[1], one.light.forward[0], 0.0)
        assert most <= one.limit * (1 + 1e-6)  # what the file lets flow, and no more
        assert one.most <= most <= 1.1 * one.most
        least = measured(one, one.supply[0], one.light.forward[1], one.pin_ohm)
        assert one.least <= least  # an LED that has less current takes less of the supply


def test_a_resistor_is_the_least_of_the_series_that_is_large_enough():
    assert [resistor_for(volts, 0.001) for volts in (1.0, 1.001, 3.75, 8.3)] == [
        *(1000, 1200, 3900, 10_000)
    ]
    assert resistor_for(0.05, 0.02) == 2.7
    for volts in (0.013, 0.5, 1.7, 2.2, 3.3, 4.7):
        ohm = resistor_for(volts, 0.002)
        assert volts / ohm <= 0.002 * (1 + 1e-9)
        lower = max(one * 10**n for one in E12 for n in range(6) if one * 10**n < ohm - 1e-9)
        assert volts / lower > 0.002 or volts / 0.002 < 1


def test_an_led_that_needs_more_than_the_supply_has_no_resistor():
    (one,) = light_currents(pad("rp2040", ("CapsLock 4 V",)))
    assert one.ohm is None and one.least == one.most == 0.0


def test_each_colour_has_its_forward_voltages_in_order():
    for colour in LIGHT_COLOURS.values():
        assert 1.0 <= colour.least < colour.usual < colour.most <= 4.0
