"""Levels over the whole range of a supply, with parts on the board, and leaking diodes.

What is worked by hand says from which figures; the rest stands beside ngspice on the same network.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from matrixgen.boards import Mounted, builtin_diodes, builtin_profile
from matrixgen.boards.on_board import LIGHT_OHM, LIGHT_VOLTS
from matrixgen.circuit.leakage import Leakage
from matrixgen.circuit.levels import Levels
from matrixgen.circuit.network import Network
from matrixgen.circuit.over_supply import LevelsOverSupply
from matrixgen.jobs.examine import examine
from matrixgen.model import Matrix, Mounting, Press, matrix_of
from matrixgen.record import changed
from tests.circuit.at_one_supply import no_level_is_above, worst
from tests.circuit.matrices import matrix
from tests.circuit.spice import FAIRCHILD, run, shockley, volts_of
from tests.firmware.build_model import keyboard, mounted, profile, word

ROOT = Path(__file__).parents[2]
SILICON = builtin_diodes()["1N4148"]


def full(drives: int, senses: int) -> Matrix:
    return matrix({(d, s): "toward" for d in range(drives) for s in range(senses)})


def on(controller: str, of: Matrix, pins: dict[str, str] | None = None) -> Mounted:
    """A matrix on a built-in controller, its lines on the pins named and on free ones."""
    chip = builtin_profile(controller)
    assert chip is not None
    lines = [line.name.text for line in (*of.drives, *of.senses)]
    given = pins or {}
    free = (pin.name for pin in chip.usable_pins if pin.name not in given.values())
    names = {line: word(given[line] if line in given else next(free)) for line in lines}
    pad = keyboard([["A"]], {"base": {"A": Press(4)}})
    return Mounted(pad, Mounting(word(controller), names), chip)


@pytest.mark.parametrize(
    ("supply", "down", "margin"),
    [
        # V_IL 0.2 V_CC - 0.1 V and 20 kohm (Atmel 7766 table 29-1), 70 ohm of V_OL, and what a
        # 1N4148 drops at 0 degrees (Vishay 81857 figure 2, its upper curve), all worked by hand.
        (5.0, 14, 0.065),
        (4.4, 14, -0.02),
        (4.35, 14, -0.027),
        (4.35, 10, 0.015),
    ],
)
def test_five_by_fourteen_keys_on_an_atmega32u4(supply: float, down: int, margin: float) -> None:
    of = full(5, 14)
    board = on("atmega32u4", of)
    there = changed(board, profile=board.profile.at_supply(supply))
    level = worst(Levels(there, Network(of), SILICON), down)
    assert level.down == down
    assert level.margin == pytest.approx(margin, abs=0.006)


def test_so_it_passes_with_ten_and_fails_with_all() -> None:
    of = full(5, 14)
    board = on("atmega32u4", of)
    ten, all_of_them = (LevelsOverSupply(board, Network(of), SILICON, most) for most in (10, None))
    assert ten.is_sure and not all_of_them.is_sure
    assert all_of_them.worst and all_of_them.worst.supply == 4.35
    assert all_of_them.fails_from(all_of_them.worst) == 12
    for down in (11, 12):  # and with so many it does
        assert LevelsOverSupply(board, Network(of), SILICON, down).is_sure == (down < 12)


@pytest.mark.parametrize("name", ["atmega32u4", "stick-32u4", "rp2040", "stm32f401cc", "esp32-s3"])
def test_no_supply_of_the_range_is_worse_than_the_three_that_are_reckoned_with(name: str) -> None:
    of = full(4, 12)
    board = on(name, of)
    of_all = LevelsOverSupply(board, Network(of), SILICON).worst
    assert of_all is not None
    least, _, most = board.profile.supplies
    for step in range(21):
        supply = least + (most - least) * step / 20
        there = changed(board, profile=board.profile.at_supply(supply))
        level = worst(Levels(there, Network(of), SILICON), 10)
        assert level.margin >= of_all.margin - 1e-9


def levels_per_pin(chance: Random, of: Matrix) -> Levels:
    """Levels on pins of which each has a pull-up of its own."""
    chip = profile(output_low_ohm=70.0, family="rp2040")  # whose driven pin keeps its pull-up
    pins = tuple(
        changed(pin, pull_up_ohm_min=ohm, pull_up_ohm_max=ohm)
        for pin in chip.pins
        for ohm in [chance.choice([5e3, 20e3, 80e3])]
    )
    board = mounted(keyboard([["A"]], {"base": {"A": Press(4)}}), changed(chip, pins=pins))
    lines = [line.name.text for line in (*of.drives, *of.senses)]
    names = dict(zip(lines, (word(pin.name) for pin in pins), strict=False))
    return Levels(
        changed(board, mounting=Mounting(word("c"), names)), Network(of), shockley(FAIRCHILD)
    )


@pytest.mark.parametrize("seed", range(2))
def test_the_bound_without_diodes_holds_where_other_lines_have_stronger_pull_ups(seed: int) -> None:
    chance, tried = Random(seed), 0
    for _ in range(15):
        of = matrix({(d, s): chance.choice(["none", "toward"]) for d in range(4) for s in range(4)})
        levels = levels_per_pin(chance, of)
        drive = chance.randrange(4)
        pressed = [one for one in of.contacts if chance.random() < 0.6]
        tried += no_level_is_above(levels, pressed, drive)
    assert tried > 20


def test_a_light_to_the_supply_counts_in_the_low_level_as_ngspice_has_it() -> None:
    """One key on PC13 of a board, driven and sensed; the light is a source of 1.6 V and 1 kohm."""
    of = full(1, 1)
    for line in ("c0", "r0"):
        board = on("board-f103", of, {line: "PC13"})
        supply = board.profile.supply_volts
        level = worst(Levels(board, Network(of), shockley(FAIRCHILD)))
        node = "d0" if line == "c0" else "s0"
        netlist = [
            f"VCC vcc 0 {supply}",
            "RS vcc s0 30k",
            "RLOW d0 0 50",
            "RK s0 k0 10",
            "D1 k0 d0 DM",
            f"VL vcc l0 {LIGHT_VOLTS}",
            f"RL l0 {node} {LIGHT_OHM}",
            ".model DM D(IS=5.0e-9 RS=0.8622 N=2.0)",
            *(["RD vcc d0 30k"] if board.profile.family_record is None else []),
        ]
        printed = run(netlist, ["op", "print v(s0)"])
        there = float(printed.split("v(s0) =")[1].split()[0])
        assert level.volts - 6e-3 < there <= level.volts  # we let no current fall with the output
        without = worst(Levels(on("board-f103", of), Network(of), shockley(FAIRCHILD)))
        assert level.volts > without.volts + 0.02


@pytest.mark.parametrize("size", [(2, 5), (3, 3), (7, 3), (4, 2)])
def test_leaking_diodes_let_a_line_fall_no_farther_than_is_said(size: tuple[int, int]) -> None:
    """The keys that are down as in `leakage.py`, each blocking diode a source of its current."""
    drives, senses = size
    of = full(drives, senses)
    leakage = Leakage(on("rp2040", of), of, builtin_diodes()["BAT85"])
    fallen = leakage.worst
    assert fallen is not None
    idle, low = fallen.idle, fallen.low
    netlist = [f"VCC vcc 0 {fallen.supply}", "RLOW d0 0 125"]
    netlist += [f"RD{n} vcc d{n} 80k" for n in range(1, idle + 1)]
    netlist += [f"RS{n} vcc s{n} 80k" for n in range(low + 1)]
    for n in range(1, low + 1):
        netlist.append(f"DL{n} s{n} d0 DM")
        netlist += [f"IR{n}x{m} d{m} s{n} {fallen.ampere}" for m in range(1, idle + 1)]
    netlist += [f"DK{m} s0 d{m} DM" for m in range(1, idle + 1)]
    bat85 = {"IS": 211.7e-9, "RS": 2.637, "N": 1.016}  # a published SPICE model of the BAT54
    netlist.append(".model DM D(IS=211.7n N=1.016 RS=2.637)")
    printed = run(netlist, ["op", "print v(s0)"])
    there = float(printed.split("v(s0) =")[1].split()[0])
    assert fallen.volts - 1e-3 <= there <= fallen.volts + volts_of(bat85, 1e-5)


def test_a_schottky_row_falls_to_a_volt_and_a_half_on_an_rp2040_and_silicon_does_not() -> None:
    """2 uA at 25 degrees at most, twice as much for each 10 K, in 80 kohm: 1.49 V at 3.30 V."""
    of = full(7, 5)
    board = on("rp2040", of)
    at_usual = changed(board, profile=changed(board.profile, supply=None))
    fallen = Leakage(at_usual, of, builtin_diodes()["BAT85"]).worst
    assert fallen is not None
    assert fallen.volts == pytest.approx(3.3 - 4 * 2e-6 * 2**2.5 * 80e3 / 2, abs=1e-6)
    assert not Leakage(board, of, builtin_diodes()["BAT85"]).is_sure
    assert Leakage(board, of, SILICON).is_sure
    assert (
        LevelsOverSupply(board, Network(of), builtin_diodes()["BAT85"]).with_a_sure_diode
        is not None
    )


def test_what_a_light_holds_low_is_not_laid_at_the_diodes_door() -> None:
    of = full(2, 7)
    board = on("board-32u4-25", of, {"r3": "PD6"})
    assert Leakage(board, of, SILICON).is_sure


def test_no_diode_is_proposed_that_leaks_or_breaks_down() -> None:
    of = full(7, 5)
    for name in ("stick-32u4-3v3", "rp2040", "stm32f401cc", "at90usb162"):
        board = on(name, of)
        other = LevelsOverSupply(board, Network(of), SILICON).with_a_sure_diode
        assert other is not None and other.is_sure
        assert Leakage(board, of, other.diode).is_sure
        assert other.diode.reverse_volts >= max(board.profile.supplies)


@pytest.mark.parametrize("path", sorted(ROOT.glob("examples/*/*.keys")), ids=lambda path: path.stem)
@pytest.mark.parametrize("diode", ["toward", "none"])
def test_the_worst_key_is_the_worst_of_all_though_only_unlike_ones_are_asked(path, diode) -> None:
    for board in examine(str(path)).mounted:
        of = matrix_of(board.keyboard)
        of = changed(of, contacts=tuple(changed(one, diode=diode) for one in of.contacts[:40]))
        levels = LevelsOverSupply(board, Network(of), shockley(FAIRCHILD))
        assert levels.worst == min(levels.all, key=lambda level: round(level.margin, 9))
