"""A wiring learned from the pins that each key closes."""

import pytest

from matrixgen.bench.dialogues.learn import learned
from matrixgen.bench.faults.board import board_of
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.jobs.examine import examine, examine_text
from matrixgen.jobs.learned_text import ControllerInFile, UnknownPin, learned_text
from matrixgen.model.meaning import mounted_meaning
from tests.examples.shipped import FOLDER, NAMES
from tests.probe.boards import SMALL, example_board, small_board, small_text
from tests.texts import examined


def presses_of(board):
    """What each key of a board closes, by the names of pins."""
    netlist, pins = Netlist(board), board.pins
    return {
        key: frozenset((pins[low], pins[read]) for low, read in netlist.pressed(place))
        for place, key in enumerate(board.keys)
    }


def home_of(file):
    return ControllerInFile(file.design, file.mounted[0].profile, 0)


def without_wiring(text):
    """A file's text without its block `wiring`."""
    kept, inside = [], False
    for line in text.splitlines(keepends=True):
        if line[:1].strip() and not line.startswith("#"):
            inside = line.startswith("wiring")
        if not inside:
            kept.append(line)
    return "".join(kept)


def by_pin(file):
    """Which keys are on which pin, and what is said of diodes and lines."""
    wiring, mounted = file.design.keyboard.wiring, file.mounted[0]
    lines = {
        (line.axis, mounted.pin_of(line).name): {word.text for word in line.visits}
        for line in wiring.lines
    }
    exceptions = ({one.text for one in wiring.without_diode}, {one.text for one in wiring.reversed})
    band = wiring.diodes.band_toward if wiring.diodes else None
    return lines, wiring.drive, band, exceptions


@pytest.mark.parametrize("name", NAMES)
def test_an_example_s_own_wiring_is_learned_and_nothing_in_its_file_changes(name):
    examined = examine(str(FOLDER / name / f"{name}.keys"))
    for place, mounted in enumerate(examined.mounted):
        home = ControllerInFile(examined.design, mounted.profile, place)
        presses = presses_of(board_of(mounted))
        found = learned(examined.design.keyboard.keys, presses, home.row_pins())
        assert not any(remark.is_wrong for remark in found.remarks)
        assert learned_text(home, found) == examined.design.source.original


def test_a_lead_on_another_pin_of_one_controller_leaves_the_others_alone():
    examined = examine(str(FOLDER / "avocet-42" / "avocet-42.keys"))
    mounted = examined.mounted[0]
    home, board = ControllerInFile(examined.design, mounted.profile, 0), board_of(mounted)
    spare = {board.pins[0]: board.pins[board.spare[0]]}
    presses = {
        key: frozenset(tuple(spare.get(pin, pin) for pin in pair) for pair in press)
        for key, press in presses_of(board).items()
    }
    found = learned(examined.design.keyboard.keys, presses, home.row_pins())
    before, after = examined.design.source.original, learned_text(home, found)
    pairs = zip(before.split(), after.split(), strict=True)
    assert len([old for old, new in pairs if old != new]) == 1


def relearned(**moved):
    """The small file after its board was learned with some keys on other pins."""
    plain = examined(small_text("with diodes"))
    presses = presses_of(small_board("with diodes"))
    presses |= {key: frozenset([pair]) for key, pair in moved.items()}
    found = learned(plain.design.keyboard.keys, presses, home_of(plain).row_pins())
    written = examined(learned_text(home_of(plain), found))
    assert not written.errors
    wiring, pins = written.design.keyboard.wiring, written.design.pins
    lines = {line.name.text: " ".join(word.text for word in line.visits) for line in wiring.lines}
    return lines, {name: words[0].text for name, words in pins.items()}


def test_a_lead_on_another_pin_is_still_of_its_line():
    lines, pins = relearned(C=("PD4", "PD0"))
    assert lines == {"r0": "A B C", "r1": "D E", "c0": "A D", "c1": "B E", "c2": "C"}
    assert pins["c2"] == "PD4"


def test_swapped_leads_change_the_pins_and_not_the_lines():
    lines, pins = relearned(A=("PB5", "PD0"), D=("PB5", "PD1"), B=("PB4", "PD0"), E=("PB4", "PD1"))
    assert (lines["c0"], lines["c1"]) == ("A D", "B E")
    assert pins["c0"] != pins["c1"]
    assert {pins["c0"], pins["c1"]}.isdisjoint({pins["c2"], pins["r0"], pins["r1"]})


def test_a_key_on_another_line_is_put_there():
    lines, _ = relearned(C=("PB6", "PD1"))
    assert (lines["r0"], lines["r1"]) == ("A B", "C D E")


@pytest.mark.parametrize("name", NAMES)
def test_the_wiring_of_an_example_that_has_none_yet_is_the_one_it_had(name):
    path = FOLDER / name / f"{name}.keys"
    before = examine(str(path))
    text = without_wiring(path.read_text(encoding="utf-8"))
    bare = examine_text(str(path), text, path.parent)
    found = learned(bare.design.keyboard.keys, presses_of(example_board(name)))
    if len(bare.design.controllers) > 1:  # a new line's pins on the others cannot be known
        with pytest.raises(UnknownPin):
            learned_text(home_of(bare), found)
        return
    written = examine_text(str(path), learned_text(home_of(bare), found), path.parent)
    assert not written.errors
    assert by_pin(written) == by_pin(before)


@pytest.mark.parametrize("name", SMALL)
def test_diodes_are_learned_as_they_are(name):
    plain = examined(small_text("with diodes"))
    home = home_of(plain)
    found = learned(plain.design.keyboard.keys, presses_of(small_board(name)), home.row_pins())
    written = examined(learned_text(home, found))
    assert mounted_meaning(written.design) == mounted_meaning(examined(small_text(name)).design)


@pytest.mark.parametrize(
    "key, press, says",
    [
        ("A", [], "connects nothing"),
        ("B", [("PB4", "PD0")], "on the same two pins as `A`"),
        ("C", [("PB4", "PD0"), ("PB5", "PD0")], "connects 3 pins at once"),
        ("E", [("PD1", "PB5")], "in the other direction"),
        ("E", [("PB4", "PB5")], "both rows or both columns"),
    ],
)
def test_what_is_odd_about_a_key_is_said(key, press, says):
    plain = examined(small_text("with diodes"))
    presses = presses_of(small_board("with diodes")) | {key: frozenset(press)}
    found = learned(plain.design.keyboard.keys, presses)
    [remark] = found.remarks
    assert (remark.key, says in remark.says) == (key, True), remark
