"""The plate as it fills, and what a probe is told key by key."""

import io

from matrixgen.bench.dialogues.probing import Probing
from matrixgen.bench.faults.netlist import NONE, Netlist
from matrixgen.bench.faults.observe import netlist_with
from matrixgen.cli.bench_dialogue import CLEAR, DialogueView
from matrixgen.jobs.examine import examine
from tests.examples.shipped import FOLDER
from tests.probe.boards import suspects_of

SUSPECTS = suspects_of("heron-12")
BOARD = SUSPECTS.board


class Terminal(io.StringIO):
    def isatty(self):
        return True


def pairs_of(key):
    return Netlist(BOARD).pressed(BOARD.place_of[key])


def test_a_terminal_shows_the_plate_with_a_mark_at_each_key():
    keyboard = examine(str(FOLDER / "heron-12" / "heron-12.keys")).design.keyboard
    out = Terminal()
    view = DialogueView(keyboard, out)
    probing = Probing(SUSPECTS, NONE)
    for key in ("7", "5"):
        said = list(probing.pressed(pairs_of(key)))
        view.say(said, probing.marks)
    screen = out.getvalue().split(CLEAR)[-1].splitlines()
    assert [line.split() for line in screen[:3]] == [
        ["+", ".", "."],
        [".", "+", "."],
        [".", ".", "."],
    ]
    assert screen[-1] == "`5` (2 of 12)"


def test_a_press_that_no_key_of_the_file_makes_is_asked_about():
    probing = Probing(SUSPECTS, NONE)
    pin = BOARD.spare[0]
    [line] = probing.pressed(frozenset([(0, pin)]))
    assert "no key should read like this" in line
    assert list(probing.typed("nonsense")) == ["the file has no key `nonsense`"]
    list(probing.typed("7"))
    assert probing.result.keys == {BOARD.place_of["7"]: {(0, pin)}}


def test_keys_can_be_skipped_gone_back_to_and_left():
    probing = Probing(SUSPECTS, NONE, in_order=True)
    first, second = BOARD.keys[:2]
    assert f"press `{first}`" in "".join(probing.begins())
    assert f"press `{second}`" in "".join(probing.typed("skip"))
    assert f"press `{first}`" in "".join(probing.typed("back"))
    list(probing.typed(""))
    list(probing.typed("stop"))
    assert probing.is_over
    assert probing.result.keys == {0: NONE}


def test_a_key_at_another_place_is_told_as_it_is_pressed():
    probing = Probing(SUSPECTS, NONE, in_order=True)
    list(probing.begins())
    told = next(iter(probing.pressed(pairs_of("5"))))
    assert told.endswith("which is where `5` should be")


def test_a_dead_key_shows_nothing():
    dead = next(one.effect for one in SUSPECTS.all if one.effect.what == "open")
    assert netlist_with(BOARD, dead).pressed(dead.keys[0]) == NONE
