"""`learn` and `probe` as programs with knobs: somebody turns them, and a model of them answers."""

import pytest

from matrixgen.bench.faults.netlist import Netlist
from tests.bench_port.person import as_asked, at_the_bench
from tests.bench_port.stand_in import Knob, StandIn
from tests.probe.boards import small_board
from tests.probe.test_turning import CHIP, JOG, KNOBS, VOLUME, knobs, text_with


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "small.keys"
    path.write_text(text_with(KNOBS), encoding="utf-8")
    return path


def run(command, file, turned, turn=as_asked, spare=(), **how):
    board = Netlist(small_board("with diodes"))
    with StandIn(board, CHIP, knobs=turned, spare=spare) as bench:
        return at_the_bench(bench, [command, str(file)], turn=turn, **how)


def test_a_knob_that_turns_the_wrong_way_and_one_on_other_pins_are_written(file):
    keys_first = iter([["A", "\n"]])
    status, output, said = run(
        "learn",
        file,
        knobs(VOLUME[::-1], ("PE6", "PF7")),
        lambda knob, way: next(keys_first, None) or as_asked(knob, way),
        spare=JOG,
    )
    assert status == 0, output + said
    swapped = KNOBS.replace("PD4 PC6", "PC6 PD4").replace("PD7 PE6", "PE6 PF7")
    assert file.read_text("utf-8") == text_with(swapped)
    assert "that joins `PB4` and `PD0`, as a key does" in said


def test_a_probe_names_a_dead_contact_and_a_knob_that_was_not_turned(file):
    status, output, said = run(
        "probe",
        file,
        knobs((None, "PC6")),
        lambda knob, way: ["\n:skip"] if knob == "jog" else as_asked(knob, way),
        presses=[*"ABCDE"],
    )
    assert status == 1, said
    assert "the knob `volume` never closes its contact on `PD4`" in output
    assert "not turned: `jog`" in output and "nothing is wrong" not in output


def test_a_bench_that_leaves_a_knob_s_pins_alone_is_told(file):
    """Bench firmware that an older matrixgen built of a file left the pins of its knobs out."""
    status, _, said = run("learn", file, {"volume": Knob(VOLUME)})
    assert status == 2
    assert "does not read `PD7` and `PE6`, on which the file has a knob" in said
