"""`matrixgen learn` with a bench on a pseudo-terminal and somebody who presses keys."""

import pytest

from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.faults.observe import netlist_with
from matrixgen.jobs.examine import examine
from tests.bench_port.person import at_the_bench
from tests.bench_port.stand_in import StandIn
from tests.probe.boards import small_board, small_text, suspects_of
from tests.probe.test_learn import without_wiring
from tests.texts import edited

CHIP = "ATmega32U4"


def learned_by(netlist, file, **how):
    """What comes of `learn` with a board."""
    with StandIn(netlist, CHIP) as bench:
        return at_the_bench(bench, ["learn", str(file)], **how)


def test_a_wiring_is_written_with_its_diodes(file):
    status, output, said = learned_by(Netlist(small_board("some of each")), file)
    text = file.read_text(encoding="utf-8")
    assert text.startswith(without_wiring(small_text("with diodes")).rstrip("\n"))
    assert "  without diode B E\n" in text
    assert "reversed" not in text  # as it will be: no firmware could see that key as it is
    assert output.startswith("unplug before you solder:\n  `C` has its diode the wrong way round")
    assert "`B`: 8 and PB5" not in said
    assert status == 1
    assert examine(str(file)).is_sound


def test_keys_can_be_asked_for_again(file):
    answers = iter(["skip", "back", None, ":again", None, "B", ":back"])
    status, _, said = learned_by(
        Netlist(small_board("with diodes")), file, answer=lambda key: next(answers, None)
    )
    assert status == 0
    assert said.count("press `A`") == 4


def test_the_rest_is_written_where_a_key_never_closes(file):
    dead = suspects_of("with diodes").all[0].effect
    status, output, said = learned_by(
        netlist_with(small_board("with diodes"), dead),
        file,
        answer=lambda key: "" if key == "A" else None,
    )
    assert status == 1
    assert "`A` connects nothing" in said
    assert output.startswith("unplug before you solder:\n  `A` connects nothing")
    examined = examine(str(file))
    assert {
        word.text for line in examined.design.keyboard.wiring.lines for word in line.visits
    } == {*"BCDE"}
    assert [found.message for found in examined.errors] == ["`A` is on no row and no column"]


def test_wires_that_touch_are_said_before_any_key(file):
    short = next(
        one.effect for one in suspects_of("with diodes").all if one.effect.what == "joined"
    )
    status, output, said = learned_by(netlist_with(small_board("with diodes"), short), file)
    assert status == 1
    assert "closed while nothing is pressed" in output
    assert "press `A`" not in said


COMMENT = "  # Nothing is driven by hand here: columns are, where a file does not say it.\n"


@pytest.mark.parametrize("says_drive", [True, False])
def test_what_is_driven_is_said_where_the_file_says_it_or_not_at_all(file, says_drive):
    """The board has a diode reversed, and two left out, that the file does not know."""
    drive = "  drive columns, sense rows\n"
    edit = (drive, COMMENT + (drive if says_drive else ""))
    file.write_text(edited(small_text("with diodes"), [edit]), encoding="utf-8")
    learned_by(Netlist(small_board("some of each")), file)
    after = file.read_text(encoding="utf-8")
    assert "  without diode B E\n" in after
    assert f"wiring\n{COMMENT}{drive if says_drive else ''}  diodes 1N4148" in after
