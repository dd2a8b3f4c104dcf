"""What is to be done with the iron: in words, in an order in which one can work."""

from __future__ import annotations

import pytest

from matrixgen.compare.change import RANKS
from tests.compare.truth import compare_texts
from tests.texts import Pair, edited

PAD = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B C D
  line E F G H

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row r0 on PB0 A B C D
  row r1 on PB1 E F G
  row r2 on PB7 H
  column c0 on PB2 A E
  column c1 on PB3 B F
  column c2 on PB4 C G
  column c3 on PB5 D H
"""


def steps(*edits: Pair) -> list[str]:
    found = compare_texts(PAD, edited(PAD, edits))
    ranks = [RANKS.index(step.rank) for step in found.steps]
    assert ranks == sorted(ranks)
    return [step.text for step in found.steps]


def test_a_wire_that_goes_to_another_pin():
    assert steps(("c3 on PB5", "c3 on PB6")) == ["move wire `c3` from PB5 to PB6"]


def test_a_diode_that_is_turned_taken_out_or_fitted():
    assert steps(("  row r0", "  reversed B\n  row r0")) == ["reverse the diode at `B`"]
    bare = steps(("  row r0", "  without diode B C\n  row r0"))
    assert bare == ["take out the diode at `B` and `C`, and bridge it"]


def test_a_hole_is_drilled_and_an_area_kept_clear():
    ends = ("  line E F G H\n", "  line E F G H\n  hole at 1, 1\n  keep clear 5, 0, 1, 1.5\n")
    assert steps(ends) == [
        "drill a screw hole at 1, 1 (its middle, in key units)",
        "run the wires round the area of 1 x 1.5 at 5, 0 (its upper left corner)",
    ]
    text = PAD.replace(*ends)
    moved = text.replace("hole at 1, 1", "hole at 3, 1").replace("5, 0, 1, 1.5", "5, 0, 2, 1.5")
    found = compare_texts(text, moved)
    assert found.headline == "solder: 1 hole removed, 1 hole added, 1 keep-clear area"
    assert [change.text for change in found.changes] == [
        "the screw hole at 1, 1 is removed",
        "the screw hole at 3, 1 is added",
        "the keep-clear area of 1 x 1.5 at 5, 0 is now of 2 x 1.5 at 5, 0",
    ]
    gone = compare_texts(text, PAD.replace(ends[0], f"{ends[0]}  hole at 1.5, 1\n"))
    assert gone.headline == "solder: 1 hole moved"
    assert [step.text for step in gone.steps] == [
        "drill the screw hole at 1, 1 again, at 1.5, 1 (its middle, in key units)"
    ]
    assert [change.text for change in gone.of_kind("cosmetic")] == [
        "the keep-clear area of 1 x 1.5 at 5, 0 is removed"
    ]


def test_of_two_new_holes_the_nearer_one_is_the_old_one_moved():
    ends = ("\n\nwiring", "\n  hole at 1, 1\n\nwiring")
    two = (ends[0], "\n  hole at 1, 1.75\n  hole at 1.5, 1\n\nwiring")
    found = compare_texts(PAD.replace(*ends), PAD.replace(*two))
    assert [change.text for change in found.changes] == [
        "the screw hole at 1, 1 is now at 1.5, 1",
        "the screw hole at 1, 1.75 is added",
    ]
    back = compare_texts(PAD.replace(*two), PAD.replace(*ends))
    assert [change.text for change in back.changes] == [
        "the screw hole at 1.5, 1 is now at 1, 1",
        "the screw hole at 1, 1.75 is removed",
    ]


def test_holes_in_another_order_are_the_same_holes():
    text = PAD.replace("\n\nwiring", "\n  hole at 1, 1\n  hole at 2, 1\n\nwiring")
    other = PAD.replace("\n\nwiring", "\n  hole at 2, 1\n  hole at 1, 1\n\nwiring")
    assert compare_texts(text, other).headline == "cosmetic only: 1 way to write it"


def test_every_diode_turned_is_one_thing_to_do():
    found = steps(
        ("toward columns", "toward rows"),
        ("drive columns, sense rows", "drive rows, sense columns"),
    )
    assert found == ["reverse the diode at all keys"]


def test_a_key_that_goes_to_another_wire():
    assert steps(("row r1 on PB1 E F G", "row r1 on PB1 E F G H"), ("  row r2 on PB7 H\n", "")) == [
        "remove the row wire `r2`",
        "solder `H` to `r1` beside `G`",
    ]
    assert steps(("r1 on PB1 E F G", "r1 on PB1 E G"), ("r2 on PB7 H", "r2 on PB7 F H")) == [
        "cut `r1` free of `F`, and connect `E` and `G`",
        "solder `F` to `r2` beside `H`",
    ]


def test_a_new_key_and_a_new_wire():
    found = steps(
        ("line E F G H", "line E F G H J"),
        ("  column c3 on PB5 D H\n", "  column c3 on PB5 D H\n  column c4 on PB6 J\n"),
        ("row r2 on PB7 H", "row r2 on PB7 H J"),
    )
    assert found == [
        "cut an opening for `J` at 4.5, 1.5 (its middle, in key units)",
        "fit the switch `J`",
        "fit a diode at `J`, its band toward the column",
        "solder `J` to `r2` and `c4`",
        "run the column wire `c4` along `J`",
        "put wire `c4` on PB6",
    ]


def test_a_key_that_goes():
    found = steps(("line A B C D", "line A B C"), ("A B C D", "A B C"), ("PB5 D H", "PB5 H"))
    assert found == ["remove the switch `D` with its diode, off `r0` and `c3`"]


def test_another_controller():
    other = PAD.replace("atmega32u4", "rp2040")
    for number in range(8):
        other = other.replace(f"on PB{number}", f"on GPIO{number}")
    found = compare_texts(PAD, other)
    assert found.headline == "solder: 1 controller; then reflash"
    assert found.steps[0].text == "unsolder all wires from the `atmega32u4`"
    assert len(found.steps) == 1 + 7


def test_a_wire_of_which_most_keys_change_is_run_anew():
    old = PAD.replace("  row r1 on PB1 E F G\n  row r2 on PB7 H\n", "  row r1 on PB1 E F G H\n")
    new = old.replace("r0 on PB0 A B C D", "r0 on PB0 A F G H").replace(
        "r1 on PB1 E F G H", "r1 on PB1 E B C D"
    )
    texts = [step.text for step in compare_texts(old, new).steps]
    assert texts == [
        "remove the wire `r0`",
        "remove the wire `r1`",
        "run the wire `r0` again along `A`, `F`, `G` and `H`",
        "run the wire `r1` again along `E`, `B`, `C` and `D`",
    ]


def test_only_a_plate_that_is_cut_anew_needs_no_image_and_a_pin_does():
    moved = compare_texts(PAD, PAD.replace("line E F G H", "line down 0.5 E F G H"))
    assert moved.headline == "solder: 4 keys moved"
    pin = compare_texts(PAD, PAD.replace("c3 on PB5", "c3 on PB6"))
    assert pin.headline == "solder: 1 wire on another pin; then reflash"


def test_a_new_wire_that_visits_no_key_yet_is_run_along_nothing():
    old = "plate\n  line A\n\nwiring\n  row r0 A\n  column c0 A\n"
    found = compare_texts(old, old + "  row r1\n")
    assert [step.text for step in found.steps] == ["run the row wire `r1`"]


@pytest.mark.parametrize(
    ("old", "new", "way"),
    [
        (350, 5, "15 degrees clockwise"),
        (5, 350, "15 degrees anticlockwise"),
        (0, 180, "180 degrees anticlockwise"),
        (-90, 90, "180 degrees anticlockwise"),
        (15, 10.5, "4.5 degrees anticlockwise"),
    ],
)
def test_a_cluster_is_turned_by_the_short_way(old: float, new: float, way: str) -> None:
    text = PAD.replace(
        "\n\nwiring", "\n  cluster end at 9, 0 turned {turn}\n    line I\n\nwiring", 1
    )
    found = compare_texts(text.format(turn=old), text.format(turn=new))
    (moved,) = (change for change in found.changes if change.slug == "keys-moved")
    assert way in moved.text
