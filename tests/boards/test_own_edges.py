"""A user's own profile: what stands along the edges of the board."""

import json

import pytest

from matrixgen.boards import Edge
from matrixgen.resources import resource
from tests.boards.own_files import good, load, marked, only, sound


def with_edges(**sides) -> dict:
    edges = [{"side": side, "pins": words.split()} for side, words in sides.items()]
    return good() | {"edges": edges}


def walked(profile) -> list[str]:
    return [pin.name for pin in profile.pins_round_the_board]


def test_edges_are_read_as_they_stand(tmp_path):
    profile = sound(tmp_path, with_edges(right="GND PB0 VCC", left="PB1 PB2 GND"))
    assert profile.edges == (
        Edge("right", ("GND", "PB0", "VCC")),
        Edge("left", ("PB1", "PB2", "GND")),
    )


def test_pins_go_round_the_board_counter_clockwise_from_the_top_left(tmp_path):
    sides = {"top": "PB6 PB7", "right": "PB4 PB5", "bottom": "PB2 PB3", "left": "PB0 PB1"}
    profile, _ = load(tmp_path, with_edges(**sides))
    assert walked(profile)[:8] == ["PB0", "PB1", "PB2", "PB3", "PB5", "PB4", "PB7", "PB6"]


def test_pins_on_no_edge_come_last_and_reserved_ones_not_at_all(tmp_path):
    profile, _ = load(tmp_path, with_edges(left="PD3 D+ PC1 PB0 GND"))
    usable = [pin.name for pin in profile.pins if pin.is_usable]
    rest = [name for name in usable if name not in ("PD3", "PB0")]
    assert walked(profile) == ["PD3", "PB0", *rest]


def test_without_edges_the_pins_stand_in_the_profile_s_order(tmp_path):
    document = good()
    del document["edges"]
    profile = sound(tmp_path, document)
    assert profile.edges == ()
    assert walked(profile) == [pin.name for pin in profile.pins if pin.is_usable]


@pytest.mark.parametrize(
    ("sides", "message", "help"),
    [
        ({"left": "PB0 PB0"}, "`PB0` is in two places along the edges", None),
        ({"left": "PB0", "top": "D+ PB0"}, "`PB0` is in two places along the edges", None),
        ({"left": "PB0 pb1"}, "no pin is called `pb1`", "there is a `PB1`"),
        ({"left": "PB0 d+"}, "no pin is called `d+`", "there is a `D+`"),
        (
            {"left": "PB0 PA3"},
            "the profile has no pin `PA3`",
            "add it to `pins`; one that is not for a line is `reserved`",
        ),
    ],
)
def test_a_word_along_an_edge_that_cannot_be_is_told_at_its_place(tmp_path, sides, message, help):
    found = only(load(tmp_path, with_edges(**sides))[1])
    assert (found.slug, found.message) == ("bad-profile", message)
    assert found.helps == ((help,) if help else ())
    last = list(sides.values())[-1].split()[-1]
    assert marked(tmp_path, found) == f'"{last}"'
    assert bool(found.notes) == message.endswith("edges")


def test_words_that_are_no_pins_may_come_again(tmp_path):
    assert load(tmp_path, with_edges(left="GND PB0 GND 3V3", right="GND RAW"))[1] == []


def test_a_label_along_an_edge_is_told_the_pin_s_name(tmp_path):
    document = with_edges(left="PB1 TX")
    document["pins"][0]["label"] = "TX"
    found = only(load(tmp_path, document)[1])
    assert found.message == "`TX` is the label of the pin, and its name is wanted here"
    assert found.helps == ("write `PB0`",)


def test_another_way_to_write_a_pin_of_the_family_is_told_the_profile_s(tmp_path):
    document = json.loads((resource("boards") / "rp2040.json").read_text("utf-8"))
    document["edges"] = [{"side": "left", "pins": ["GP5"]}]
    found = only(load(tmp_path, document)[1])
    assert (found.message, found.helps) == ("no pin is called `GP5`", ("there is a `GPIO5`",))


def test_a_side_that_is_described_twice_is_told(tmp_path):
    document = good()
    document["edges"] = [{"side": "left", "pins": [word]} for word in ("PB0", "PB1")]
    found = only(load(tmp_path, document)[1])
    assert found.message == "`left` is described twice"
    assert marked(tmp_path, found) == '"left"'


@pytest.mark.parametrize(
    ("edges", "message"),
    [
        ([], "`edges` is empty"),
        ([{"side": "left"}], "the edge lacks `pins`"),
        ([{"side": "left", "pins": []}], "`pins` is empty"),
        (
            [{"side": "north", "pins": ["PB0"]}],
            "`side` is not one of `left`, `bottom`, `right` and",
        ),
        ([{"side": "left", "pins": ["P B"]}], "`pins` `P B` does not have the form it must have"),
        ([{"side": "left", "pins": [3]}], "`pins` is not a text"),
        ([{"side": "left", "pins": ["PB0"], "x": 1}], "the edge has no field `x`"),
    ],
)
def test_edges_of_another_form_are_told(tmp_path, edges, message):
    found = only(load(tmp_path, good() | {"edges": edges})[1])
    assert found.message.startswith(message)
