"""`matrixgen learn` with a bench on a pseudo-terminal and somebody who presses keys."""

import pytest

from matrixgen.bench.netlist import Netlist
from matrixgen.bench.observe import netlist_with
from tests.bench_port.person import at_the_bench
from tests.bench_port.stand_in import StandIn
from tests.probe.boards import small_board, small_text, suspects_of
from tests.probe.test_learn import without_wiring

CHIP = "ATmega32U4"


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "small.keys"
    path.write_text(without_wiring(small_text("with diodes")), encoding="utf-8")
    return path


def test_a_wiring_is_written_with_its_diodes(file):
    with StandIn(Netlist(small_board("some of each")), CHIP) as bench:
        status, output, said = at_the_bench(bench, ["learn", str(file)])
    text = file.read_text(encoding="utf-8")
    assert text.startswith(without_wiring(small_text("with diodes")).rstrip("\n"))
    assert "  without diode B E\n  reversed C\n" in text
    assert "`C` conducts in the other direction" in output
    assert "`B`: 8 and PB5" not in said
    assert status == 1  # a diode that the firmware cannot see through is still to be turned


def test_keys_can_be_asked_for_again(file):
    answers = iter(["back", None, "again"])
    with StandIn(Netlist(small_board("with diodes")), CHIP) as bench:
        status, _, said = at_the_bench(
            bench, ["learn", str(file)], answer=lambda key: next(answers, None)
        )
    assert status == 0
    assert said.count("press `A`") == 3


def test_a_key_that_never_closes_is_said_and_nothing_is_written(file):
    before = file.read_bytes()
    dead = suspects_of("with diodes").all[0].effect
    with StandIn(netlist_with(small_board("with diodes"), dead), CHIP) as bench:
        status, output, said = at_the_bench(
            bench, ["learn", str(file)], answer=lambda key: "" if key == "A" else None
        )
    assert status == 1
    assert "`A` connects nothing" in said
    assert "nothing was written" in output
    assert file.read_bytes() == before


def test_wires_that_touch_are_said_before_any_key(file):
    short = next(
        one.effect for one in suspects_of("with diodes").all if one.effect.what == "joined"
    )
    with StandIn(netlist_with(small_board("with diodes"), short), CHIP) as bench:
        status, output, said = at_the_bench(bench, ["learn", str(file)])
    assert status == 1
    assert "closed while nothing is pressed" in output
    assert "press `A`" not in said
