"""Low levels: worked by hand from datasheets, and against ngspice.

The margins of `DATASHEETS` were worked by hand from V_IL, pull-ups and outputs of the datasheets
named, with the upper curve of Vishay 81857 figure 2 for the 1N4148, corrected to 0 degrees Celsius.
"""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.boards import Mounted, builtin_diodes
from matrixgen.circuit.levels import Levels
from matrixgen.circuit.network import Network
from matrixgen.circuit.planned import SWITCH_OHM
from matrixgen.model import Keyboard, Matrix, Mounting, Press, matrix_of
from matrixgen.record import changed
from tests.circuit.at_one_supply import circuit_of, every, no_level_is_above, worst
from tests.circuit.matrices import matrix, random_matrix
from tests.circuit.spice import FAIRCHILD, node_volts, shockley
from tests.firmware.build_model import keyboard, mounted, profile, word

DATASHEETS = {
    # chip and supply: V_CC, strongest pull-up, V_IL, and the margin in volts
    "ATmega32U4, 5 V (Atmel 7766 table 29-1)": (5.0, 20e3, 0.90, 0.25),
    "ATmega32U4, 3.3 V (Atmel 7766 table 29-1)": (3.3, 20e3, 0.56, -0.06),
    "AT90USB162, 5 V (Atmel 7707D section 26.2)": (5.0, 20e3, 1.00, 0.35),
    "AT90USB162, 3.3 V (Atmel 7707D section 26.2)": (3.3, 20e3, 0.66, 0.04),
    "RP2040, 3.3 V (Digital IO characteristics)": (3.3, 50e3, 0.80, 0.24),
    "STM32F103, 3.3 V (13587 table 35)": (3.3, 30e3, 1.155, 0.56),
    "STM32F401 PA10, 3.3 V (DS024738 table 54)": (3.3, 7e3, 0.99, 0.30),
    "SAM D21, 3.3 V (section 37.9.1)": (3.3, 20e3, 0.99, 0.37),
    "nRF52840, 1.8 V (GPIO table)": (1.8, 11e3, 0.54, -0.06),
}
ONE_KEY = {"base": {"A": Press(4)}}


def on_chip(pad: Keyboard, supply: float, ohm: float, low: float, family: str = "avr") -> Mounted:
    chip = profile(
        supply_volts=supply,
        pull_up_ohm_min=ohm,
        input_low_volts=low,
        input_high_volts=supply,
        output_low_ohm=70.0,
        family=family,
    )
    return mounted(pad, chip)


@pytest.mark.parametrize(("supply", "ohm", "low", "margin"), DATASHEETS.values(), ids=DATASHEETS)
def test_one_key_has_the_margin_that_was_worked_by_hand(supply, ohm, low, margin) -> None:
    pad = keyboard([["A"]], ONE_KEY)
    levels = Levels(
        on_chip(pad, supply, ohm, low), Network(matrix_of(pad)), builtin_diodes()["1N4148"]
    )
    level = worst(levels)
    assert level.margin == pytest.approx(margin, abs=0.006)  # they are given to 10 mV
    made_of = (level.output_volts, level.diode_volts, SWITCH_OHM.value * level.ampere)
    assert level.volts == pytest.approx(sum(made_of), abs=1e-9)


def test_a_schottky_diode_gives_a_third_of_a_volt_more() -> None:
    pad = keyboard([["A"]], ONE_KEY)
    chip = on_chip(pad, 3.3, 20e3, 0.56)
    silicon, schottky = (
        worst(Levels(chip, Network(matrix_of(pad)), builtin_diodes()[name]))
        for name in ("1N4148", "BAT54")
    )
    # Diotech, Formosa and Rectron: at most 0.24 V at 0.1 mA, where the silicon one has 0.54 V.
    assert schottky.margin - silicon.margin == pytest.approx(0.3, abs=0.02)
    assert schottky.margin > 0 > silicon.margin


def levels_of(of: Matrix, model: dict[str, float]) -> Levels:
    pad = keyboard([["A"]], ONE_KEY)
    chip = on_chip(pad, 5.0, 20e3, 0.9, "rp2040")
    lines = [line.name for line in (*of.drives, *of.senses)]
    pins = {name.text: word(pin.name) for name, pin in zip(lines, chip.profile.pins, strict=False)}
    chip = changed(chip, mounting=Mounting(word("chip"), pins))
    return Levels(chip, Network(of), shockley(model))


@pytest.mark.parametrize("seed", range(3))
def test_with_a_diode_at_each_key_ngspice_has_the_same_worst_level(seed: int) -> None:
    """Ours is at most 0.5 mV above it, with all keys of the driven line down."""
    chance = Random(seed)
    for _ in range(20):
        some = random_matrix(chance, most_keys=30, side=8)
        of = matrix({(one.drive, one.sense): "toward" for one in some.contacts})
        levels = levels_of(of, FAIRCHILD)
        of_keys = every(levels)
        for level in of_keys[:: max(1, len(of_keys) // 3)]:
            drive = level.contact.drive
            pressed = [one for one in of.contacts if one.drive == drive]
            there = node_volts(circuit_of(levels), pressed, drive, FAIRCHILD)
            assert -1e-4 < level.volts - there[f"s{level.contact.sense}"] < 5e-4
            assert -1e-4 < level.output_volts - there[f"d{drive}"] < 5e-4


@pytest.mark.parametrize("seed", range(3))
def test_whatever_keys_are_down_no_level_is_above_the_worst_one(seed: int) -> None:
    """Keys without diodes too, in 50 random networks of ngspice with random keys down."""
    chance, tried = Random(seed), 0
    for _ in range(17):
        of = random_matrix(chance, most_keys=20, side=6)
        levels = levels_of(of, FAIRCHILD)
        pressed = [one for one in of.contacts if chance.random() < 0.6]
        drive = chance.randrange(len(of.drives))
        tried += no_level_is_above(levels, pressed, drive)
    assert tried > 15


def test_a_typical_1n4148_is_within_25_millivolts_of_a_maker_s_spice_model() -> None:
    levels = levels_of(of := matrix({(0, 0): "toward"}), FAIRCHILD)
    at, drop = circuit_of(levels), builtin_diodes()["1N4148"].drop()
    low = at.driver_ohm * at.supply_volts / at.drive_pull_ohm[0]  # by the driven pin's own pull-up
    ohm = at.sense_pull_ohm[0] + at.switch_ohm + at.driver_ohm
    ampere = drop.ampere_through(ohm, at.supply_volts - low)
    theirs = node_volts(at, of.contacts, 0, FAIRCHILD)["s0"]
    assert at.supply_volts - at.sense_pull_ohm[0] * ampere == pytest.approx(theirs, abs=0.025)


def test_keys_without_diodes_may_be_fed_by_other_lines() -> None:
    fed = levels_of(matrix({(0, 0): "none", (1, 0): "none", (1, 1): "toward"}), FAIRCHILD)
    by_key = {level.contact.key: level.fed_by for level in every(fed)}
    # k00: the other driven line through k10, and the second sensed line through k11 and k10.
    assert by_key == {"k00": 2, "k10": 1, "k11": 0}


def test_switch_resistance_is_counted() -> None:
    bare = worst(levels_of(matrix({(0, 0): "none"}), FAIRCHILD))
    assert bare.diode_volts == 0
    assert bare.volts - bare.output_volts == pytest.approx(SWITCH_OHM.value * bare.ampere)
