"""`matrixgen probe` and `learn`, as programs, with the bench's own firmware on emulated chips.

Faults are put into the emulated matrix; the emulated serial port is bridged to a pseudo-terminal.
Single faults are tried on an AT90USB162; on the two other chips, several at once, to save time.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from matrixgen.model import Line
from tests.bench_port.person import at_the_bench
from tests.bench_port.stand_in import Knob
from tests.emulators.avr.board import pin_number
from tests.emulators.bench_on_chip import (
    BenchOnChip,
    Paths,
    copy_of,
    paths_of,
    shorted,
    swapped,
    turned,
    without,
)
from tests.examples.shipped import Example, example

ALL_PRESSED = "\n"
SUPPLY = pin_number("PA0")
"""The harness has a port A, which the AT90USB162 has not."""


@dataclass(frozen=True)
class Faults:
    """Faults that have no line in common: a cold joint, a turned diode, two lines that touch."""

    keyboard: str
    cold: str
    turned: str
    joined: tuple[str, str]


ON_AN_RP2040 = Faults("knot-21", cold="Keypad8", turned="Price", joined=("r4", "r5"))
ON_AN_ATMEGA32U4 = Faults("whimbrel-34", cold="D", turned="Q", joined=("c8", "c9"))
SEVERAL = (ON_AN_RP2040, ON_AN_ATMEGA32U4)


@pytest.fixture
def board() -> Example:
    return example("heron-12")


def pin(board: Example, line: Line) -> int:
    found = board.mounted.pin_of(line)
    assert found is not None
    return pin_number(found.name)


def probed(
    board: Example, paths: Paths, *ending: str, asked_for: str | None = None
) -> tuple[int, str]:
    """Press every key, and type the name of the one that is asked for; then type the rest."""
    presses = []
    for key in (key.name.text for key in board.keyboard.keys):
        presses += [key, f"\n{key}"] if key == asked_for else [key]
    with BenchOnChip(board, paths) as bench:
        status, output, said = at_the_bench(
            bench, ["probe", str(board.path)], [*presses, *ending], answer=lambda key: ""
        )
    assert board.profile.chip in said
    return status, output


def test_a_board_that_is_whole_is_said_to_be(board: Example) -> None:
    status, output = probed(board, paths_of(board))
    verdict, *answers = output.splitlines()
    assert (status, verdict) == (
        0,
        "every key is where the file has it: nothing is wrong",
    )
    assert answers[0] == "what the board answers for itself:"
    assert f"chip: {board.profile.chip}; signature " in answers[1]


def test_a_cold_joint_is_named_by_its_key(board: Example) -> None:
    key = board.keyboard.keys[4].name.text
    status, output = probed(board, without(paths_of(board), key), ALL_PRESSED)
    assert status == 1 and f"`{key}`" in output


def test_a_diode_that_is_reversed_is_told(board: Example) -> None:
    key = board.keyboard.keys[5].name.text
    status, output = probed(board, turned(paths_of(board), key), asked_for=key)
    assert status == 1 and f"`{key}`" in output and "reversed" in output


def test_a_short_between_two_lines_is_told_before_any_key(board: Example) -> None:
    one, other = board.keyboard.wiring.lines[:2]
    status, output = probed(
        board, shorted(paths_of(board), pin(board, one), pin(board, other)), ALL_PRESSED
    )
    assert status == 1 and f"`{one.name.text}`" in output and f"`{other.name.text}`" in output


def test_a_wire_on_the_supply_is_told_and_ends_it(board: Example) -> None:
    wire = board.keyboard.wiring.lines[0]
    with BenchOnChip(board, paths_of(board)) as bench:
        bench.hold(pin(board, wire))
        status, output, said = at_the_bench(bench, ["probe", str(board.path)])
    assert (status, output) == (1, "")
    assert "unplug now: " in said and f"`{wire.name.text}` on `" in said, said


def test_a_wire_on_the_supply_and_not_on_its_pin_is_told_by_a_key(board: Example) -> None:
    """The key's sensed wire is on the supply instead of its pin: a number that no pin has."""
    key = board.keyboard.keys[4].name.text
    paths = paths_of(board)
    ((_, drive),) = paths[key]
    with BenchOnChip(board, {**paths, key: ((SUPPLY, drive),)}) as bench:
        bench.hold(SUPPLY)
        status, output, said = at_the_bench(bench, ["probe", str(board.path)], [key])
    assert (status, output) == (1, "")
    assert "unplug now: a key joins " in said, said


def test_the_wiring_is_learned_as_the_file_has_it(board: Example, tmp_path: Path) -> None:
    file = copy_of(board, tmp_path)
    with BenchOnChip(board, paths_of(board)) as bench:
        status, output, _ = at_the_bench(bench, ["learn", str(file)])
    assert status == 0, output
    assert file.read_bytes() == board.path.read_bytes()


def test_swapped_leads_are_learned_as_other_pins(board: Example, tmp_path: Path) -> None:
    file = copy_of(board, tmp_path)
    one, other = board.keyboard.wiring.lines[-2:]
    paths = swapped(paths_of(board), pin(board, one), pin(board, other))
    with BenchOnChip(board, paths) as bench:
        status, output, _ = at_the_bench(bench, ["learn", str(file)])
    assert status == 0, output
    before, after = (path.read_text("utf-8").splitlines() for path in (board.path, file))
    changed = [line.split()[1] for line in after if line not in before]
    assert changed == [one.name.text, other.name.text]


@pytest.mark.few(1)
@pytest.mark.parametrize("faults", SEVERAL, ids=lambda faults: faults.keyboard)
def test_several_faults_at_once_are_all_named_and_no_other(faults: Faults) -> None:
    board = example(faults.keyboard)
    lines = board.keyboard.wiring.lines
    joined = [pin(board, line) for line in lines if line.name.text in faults.joined]
    paths = shorted(turned(without(paths_of(board), faults.cold), faults.turned), *joined)
    with BenchOnChip(board, paths) as bench:
        status, output, said = at_the_bench(
            bench,
            ["probe", str(board.path), "--in-order"],
            answer=lambda key: "" if key == faults.cold else None,
        )
    assert status == 1
    assert f"{board.profile.chip}, " in said
    unplug, first, *_ = output.splitlines()
    assert unplug == "unplug the keyboard before you measure or solder"
    assert first == "what explains it, 3 faults at once:"
    one, other = faults.joined
    assert f"\n  the wires `{one}` and `{other}` touch each other\n" in output
    assert f"\n  the diode of `{faults.turned}` is reversed: " in output
    assert f"\n  `{faults.cold}` is open: " in output
    assert "or else" not in output and "not explained" not in output


@pytest.mark.parametrize("name", [faults.keyboard for faults in SEVERAL])
def test_a_file_with_two_pins_mixed_up_learns_the_true_ones(name: str, tmp_path: Path) -> None:
    board, file = example(name), copy_of(example(name), tmp_path)
    one, other = (word.text for word in list(board.mounted.mounting.pins.values())[-2:])
    mixed_up = {f" on {one} ": f" on {other} ", f" on {other} ": f" on {one} "}
    text = re.sub("|".join(mixed_up), lambda found: mixed_up[found[0]], file.read_text("utf-8"))
    file.write_text(text, "utf-8")
    with BenchOnChip(board, paths_of(board)) as bench:
        status, output, said = at_the_bench(bench, ["learn", str(file)])
    assert status == 0, output
    assert f"{board.profile.chip}, " in said
    assert output.startswith("written into ")
    assert file.read_bytes() == board.path.read_bytes()


def test_a_knob_whose_wires_are_swapped_is_learned_the_right_way_round(tmp_path: Path) -> None:
    board = example("sanderling-25")
    file = copy_of(board, tmp_path)
    before = file.read_text("utf-8")
    assert "  knob  zoom        on PD7 PE6\n" in before
    with BenchOnChip(board, paths_of(board), {"zoom": Knob(("PE6", "PD7"))}) as bench:
        _, output, said = at_the_bench(bench, ["learn", str(file)], answer=lambda key: ":stop")
    assert "`zoom`: PE6 before PD7 to the right" in said, output
    assert file.read_text("utf-8") == before.replace("on PD7 PE6", "on PE6 PD7")
