"""Settling and times: worked by hand, as an ngspice transient, and as the emulated chips take."""

from __future__ import annotations

import re

import pytest

from matrixgen.boards import Mounted, usual_diode
from matrixgen.circuit.lengths import centres_mm, wire_metres
from matrixgen.circuit.settling import Rise, Settling
from matrixgen.families import FAMILIES
from matrixgen.model import ControllerPlace, Keyboard, Press, matrix_of
from matrixgen.record import changed
from tests.circuit.spice import IN_TIME, run
from tests.examples.shipped import NAMES, example
from tests.firmware.build_model import keyboard, mounted, profile

ROW_OF_THREE = {"base": {"A": Press(4), "B": Press(5), "C": Press(6)}}


def pad() -> Keyboard:
    return keyboard([["A", "B", "C"]], ROW_OF_THREE)


def settling(on: Mounted) -> Settling:
    return Settling(on, matrix_of(on.keyboard))


@pytest.mark.parametrize(
    ("supply", "high", "ohm", "microseconds"),
    [
        # k R C with k = -ln(1 - V_IH / V_CC): 0.478, 0.640, 0.916, 0.932, 1.204 times R and 100 pF,
        # worked by hand from the datasheets' levels and weakest pull-ups.
        (5.0, 1.90, 50e3, 2.4),  # ATmega32U4 at 5 V, Atmel 7766 table 29-1
        (3.3, 1.56, 50e3, 3.2),  # the same at 3.3 V
        (5.0, 3.00, 50e3, 4.6),  # AT90USB162, Atmel 7707D section 26.2
        (3.3, 2.00, 80e3, 7.5),  # RP2040, "Digital IO characteristics"
        (3.3, 2.31, 50e3, 6.0),  # STM32F401, DS024738 table 54
    ],
)
def test_a_line_of_100_picofarads_rises_as_worked_by_hand(supply, high, ohm, microseconds) -> None:
    # 3 diodes of 4 pF; 50 pF/m of 0.2 m to the controller and two hops of 19.05 mm: 11.905 pF.
    chip = profile(
        supply_volts=supply,
        input_high_volts=high,
        pull_up_ohm_max=ohm,
        pin_farad=100e-12 - 12e-12 - 11.905e-12,
    )
    slowest = settling(mounted(pad(), chip)).slowest
    assert slowest is not None
    assert slowest.farad == pytest.approx(100e-12, rel=1e-9)
    assert slowest.seconds * 1e6 == pytest.approx(microseconds, abs=0.06)


def test_wire_is_measured_along_the_keys_it_visits() -> None:
    board = pad()
    (row,) = matrix_of(board).senses
    assert wire_metres(row, centres_mm(board), None) == pytest.approx(0.2 + 2 * 0.01905)


def test_to_a_controller_whose_place_is_known_the_wire_goes_right_and_down_and_round_it() -> None:
    board = pad()
    (row,) = matrix_of(board).senses
    first = centres_mm(board)[row.visits[0].text]
    unit = 0.01905
    place = ControllerPlace(x=7, y=-3, turned=90, span=row.name.span)
    way = abs(7 * unit - first[0] / 1000) + abs(-3 * unit - first[1] / 1000)
    found = wire_metres(row, centres_mm(board), place)
    assert found == pytest.approx(way + 0.1 + 2 * unit)


def transient(rise: Rise, chip: Mounted) -> float:
    """Return the seconds in which ngspice charges the line's capacitance up to V_IH.

    The junctions are those of ngspice's diodes, CJO 4 pF as in Vishay 81857, between the line and
    driven lines at the supply, so that their capacitance falls with the voltage as a real one does.
    """
    supply = rise.end  # at which it is slowest
    still = rise.farad - rise.diodes * usual_diode().zero_bias_farad
    lines = [f"VCC vcc 0 {supply}", f"R1 vcc s {rise.ohm}", f"C1 s 0 {still}"]
    lines += [f"D{n} s vcc DM" for n in range(rise.diodes)]
    lines.append(".model DM D(IS=5n N=2 CJO=4p M=0.4 VJ=0.7)")
    # A driver of 1 ohm holds the line low until it lets go, at 1 ns.
    lines += ["S1 s 0 hold 0 DRIVER", ".model DRIVER SW(VT=0.5 RON=1 ROFF=1e12)"]
    lines.append("VHOLD hold 0 PULSE(1 0 1n 1n 1n 1 2)")
    commands = [
        f"tran {rise.seconds / 2000} {rise.seconds * 2}",
        f"meas tran up when v(s)={rise.high_min} rise=1",
    ]
    found = re.search(r"^up\s*=\s*(\S+)", run(lines, commands, IN_TIME), re.M)
    assert found
    return float(found[1]) - 1.5e-9


@pytest.mark.parametrize("name", NAMES)
def test_a_transient_of_ngspice_is_no_slower_and_not_a_third_faster(name: str) -> None:
    on = example(name).mounted
    for rise in settling(on).all[:3]:
        assert rise.seconds / 1.5 < transient(rise, on) <= rise.seconds * 1.01


def fall(rise: Rise, chip: Mounted) -> float:
    """Return the seconds in which a closed key pulls the line down to V_IL, by ngspice.

    At the highest supply, from all of it, against the strongest pull-up, by way of a switch and a
    diode to a driven line that has as much capacitance and a pin that pulls it low.
    """
    at_most = chip.at_supplies[-1].profile
    assert at_most.supply_volts == max(one.profile.supply_volts for one in chip.at_supplies)
    lines = [f"VCC vcc 0 {at_most.supply_volts}", f"R1 vcc s {at_most.pull_up_ohm_min}"]
    lines += [f"C1 s 0 {rise.farad}", f"C2 d 0 {rise.farad}", f"R2 vcc d {at_most.pull_up_ohm_min}"]
    lines += ["RK s a 1", "D1 a d DM", ".model DM D(IS=5n N=2 RS=0.8622 CJO=4p M=0.4 VJ=0.7)"]
    ohm = at_most.output_low_ohm
    lines += ["S1 d 0 pull 0 DRIVER", f".model DRIVER SW(VT=0.5 RON={ohm} ROFF=1e12)"]
    lines.append("VPULL pull 0 PULSE(0 1 1n 1n 1n 1 2)")
    commands = ["tran 100p 2u", f"meas tran down when v(s)={at_most.input_low_volts} fall=1"]
    found = re.search(r"^down\s*=\s*(\S+)", run(lines, commands, IN_TIME), re.M)
    assert found, "never low"
    return float(found[1]) - 1.5e-9


@pytest.mark.few(8)
@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("name", NAMES)
def test_a_line_is_low_long_before_it_is_read(name: str, family: str) -> None:
    """With four times the capacitance of the longest line; the synchroniser takes two cycles."""
    on = example(name, family).mounted
    slowest = settling(on).slowest
    assert slowest is not None
    wait = FAMILIES[family].low_ns * 1e-9 - 2 / on.profile.clock_hz
    assert fall(changed(slowest, farad=4 * slowest.farad), on) < wait


def test_without_junctions_the_transient_is_the_same_within_half_a_percent() -> None:
    on = example("heron-12").mounted
    rise = settling(on).all[0]
    plain = changed(rise, diodes=0)
    assert transient(plain, on) == pytest.approx(rise.seconds, rel=5e-3)


def test_a_key_without_a_diode_may_join_the_line_to_one_with_more_capacitance() -> None:
    rows = [["A", "B"], ["C", None], ["D", None], ["E", None]]
    tall = keyboard(rows, {"base": {name: Press(4 + n) for n, name in enumerate("ABCDE")}})
    alone = settling(mounted(tall, profile())).all[0]
    wiring = changed(tall.wiring, without_diode=tuple(w for w in tall.wiring.lines[0].visits[:1]))
    joined = settling(mounted(changed(tall, wiring=wiring), profile())).all[0]
    assert joined.farad > alone.farad


def test_the_wait_is_rounded_up_and_at_least_a_microsecond() -> None:
    quick = mounted(pad(), profile(pull_up_ohm_max=1.0))
    assert settling(quick).wait_us == 1
    slow = settling(mounted(pad(), profile()))
    assert slow.slowest is not None
    assert slow.wait_us - 1 < slow.slowest.seconds * 1e6 <= slow.wait_us


def test_a_high_level_as_good_as_the_supply_does_not_wait_for_ever() -> None:
    stuck = mounted(pad(), profile(input_high_volts=5.0))
    assert 5 < settling(stuck).wait_us < 50
