"""`matrixgen probe` with a bench on a pseudo-terminal and somebody who presses keys."""

import shutil

import pytest

from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.faults.observe import netlist_with
from matrixgen.jobs.examine import examine
from tests.bench_port.person import at_the_bench
from tests.bench_port.stand_in import StandIn
from tests.documents import report_of
from tests.examples.shipped import FOLDER
from tests.probe.boards import suspects_of

HERON = FOLDER / "heron-12" / "heron-12.keys"
CHIP = "AT90USB162"
ALL_PRESSED = "\n"


@pytest.fixture
def board():
    return suspects_of("heron-12").board


def effect(what, **fields):
    """The effect of a kind whose first fault has these fields."""
    return next(
        one.effect
        for one in suspects_of("heron-12").all
        if one.effect.what == what
        and all(getattr(one.effect.faults[0], name) == value for name, value in fields.items())
    )


def probed(netlist, *words, file=HERON, exchanges=(), **how):
    """What comes of `probe` with a board."""
    with StandIn(netlist, CHIP, exchanges) as bench:
        return at_the_bench(bench, ["probe", str(file), *words], **how)


def test_a_board_that_is_whole_is_said_to_be(board):
    status, output, said = probed(Netlist(board), presses=board.keys)
    assert (status, output) == (
        0,
        "every key is where the file has it: nothing is wrong\n",
    )
    assert "AT90USB162, " in said


def test_a_broken_wire_is_named_between_two_keys(board):
    broken = effect("cut", lines=("left",), keys=("7", "4"))
    status, output, said = probed(
        netlist_with(board, broken), presses=[*board.keys, ALL_PRESSED], answer=lambda key: ""
    )
    assert status == 1
    assert output.startswith(
        "unplug the keyboard before you measure or solder\n"
        "what explains it:\n  the wire of `left` is open between `7` and `4`\n    look for"
    )
    assert "press `4` (" in said


def test_swapped_lines_are_told_to_the_file(board, tmp_path):
    file = tmp_path / "pad.keys"
    shutil.copy(HERON, file)
    swapped = effect("swapped", lines=("left", "right"))
    status, output, _ = probed(netlist_with(board, swapped), "--in-order", "--fix", file=file)
    assert status == 0, output
    assert "the wires `left` and `right` are swapped" in output
    before, after = HERON.read_text(), file.read_text()
    changed = [
        line for line in after.splitlines() if line not in before.splitlines() and "column" in line
    ]
    assert [line.split()[1:4] for line in changed] == [
        ["left", "on", "PB6"],
        ["right", "on", "PB4"],
    ]
    assert examine(str(file)).is_finished


def test_keys_at_each_other_s_place_come_out_once_one_is_named(board):
    exchange = (board.place_of["7"], board.place_of["5"])
    status, output, said = probed(Netlist(board), exchanges=[exchange], presses=["8", "7", "\n7"])
    assert status == 1
    assert "`7` and `5` are swapped" in output
    assert "keys are mixed up" in said


def test_the_verdict_is_there_as_json(board):
    closed = effect("closed", keys=("9",))
    status, output, _ = probed(
        netlist_with(board, closed),
        "--json",
        presses=[*board.keys, ALL_PRESSED],
        answer=lambda key: "",
    )
    report = report_of(output, "probe")
    assert status == 1
    assert report["causes"][0]["faults"][0]["alike"] == [
        {"kind": "switch closed", "keys": ["9"], "lines": [], "pins": []}
    ]


def test_a_bench_on_another_chip_is_refused(board):
    with StandIn(Netlist(board), "RP2040") as bench:
        status, output, said = at_the_bench(bench, ["probe", str(HERON)])
    assert (status, output) == (2, "")
    assert "the bench firmware runs on `RP2040`, but the file is for `AT90USB162`" in said


def test_a_port_that_is_not_there_is_said(board):
    class Nowhere:
        path, knobs = "/dev/nowhere", {}

    status, _, said = at_the_bench(Nowhere, ["probe", str(HERON)])
    assert status == 2
    assert "there is no port `/dev/nowhere`" in said


def test_a_name_typed_by_mistake_and_a_stop_leave_the_file_as_it_is(board, tmp_path):
    file = tmp_path / "pad.keys"
    shutil.copy(HERON, file)
    status, output, _ = probed(
        Netlist(board), "--fix", file=file, presses=["7", "\n5"], answer=lambda key: "stop"
    )
    assert status == 3, output
    assert "not enough was pressed" in output
    assert file.read_bytes() == HERON.read_bytes()


def test_too_few_presses_are_no_proof_that_nothing_is_wrong(board):
    status, output, _ = probed(Netlist(board), presses=["7", "\nstop"])
    assert status == 3
    assert "1 of 12 keys were pressed" in output
    assert "not enough was pressed to say that nothing is wrong" in output
    assert "nothing is wrong\n" not in output


def test_lines_that_come_broken_are_counted(board):
    class Torn(StandIn):
        def press(self, key):
            self.say("PB4 > P")
            return super().press(key)

    with Torn(Netlist(board), CHIP) as bench:
        status, output, _ = at_the_bench(bench, ["probe", str(HERON)], ["7", "\nstop"])
    assert status == 3
    assert "1 line from the port came broken or not at all" in output


def test_measurements_are_asked_for_until_one_explanation_is_left(board):
    dead = next(
        one.effect
        for one in suspects_of("heron-12").all
        if one.effect.what == "open" and one.effect.keys == (board.place_of["7"],)
    )

    def measured(question):
        return "n" if "`7` that belongs on `left` and the wire of `left`" in question else "y"

    status, output, said = probed(
        netlist_with(board, dead),
        presses=[*board.keys, ALL_PRESSED],
        answer=lambda key: "",
        reply=measured,
    )
    assert status == 1
    assert "unplug the keyboard now" in said
    assert "the joint of `7` on `left` is open" in output
    assert "less likely" not in output and "or:" not in output
