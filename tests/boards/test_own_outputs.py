"""A user's own profile: how strongly pins pull low, and pins whose figures differ."""

import pytest

from matrixgen.boards import PullUp
from matrixgen.boards.load import PLANNED_OUTPUT_LOW_OHM
from tests.boards.own_files import good, is_told, load, only, setting, sound

LOW = {"ohm": 70, "pin_ampere": 0.04, "total_ampere": 0.2}


def test_a_profile_that_says_nothing_of_outputs_has_a_planning_figure_and_no_limits(tmp_path):
    document = good()
    del document["output_low"]
    profile = sound(tmp_path, document)
    assert profile.output_low_ohm == PLANNED_OUTPUT_LOW_OHM == 100
    assert (profile.sink_ampere, profile.total_sink_ampere) == (None, None)
    assert profile.sink_ampere_of(profile.pins[0]) is None


def test_a_profile_says_how_strongly_pins_pull_low(tmp_path):
    profile, _ = load(tmp_path, good() | {"output_low": LOW})
    assert profile.output_low_ohm == 70
    assert (profile.sink_ampere, profile.total_sink_ampere) == (0.04, 0.2)
    no_total = {name: value for name, value in LOW.items() if name != "total_ampere"}
    assert sound(tmp_path, good() | {"output_low": no_total}).total_sink_ampere is None


def test_a_pin_may_have_a_limit_and_a_pull_up_of_its_own(tmp_path):
    document = good()
    document["pins"][0] |= {"sink_ampere": 0.003, "pull_up_ohm": {"min": 7000, "max": 14000}}
    profile = sound(tmp_path, document)
    own, other = profile.pins[:2]
    assert (own.sink_ampere, own.pull_up_ohm_min, own.pull_up_ohm_max) == (0.003, 7000, 14000)
    assert (profile.sink_ampere_of(own), profile.sink_ampere_of(other)) == (0.003, 0.04)
    assert profile.pull_up_of(own) == PullUp(7000, 14000)
    assert profile.pull_up_of(other) == PullUp(20000, 50000)
    assert (other.pull_up_ohm_min, other.pull_up_ohm_max, other.sink_ampere) == (None, None, None)


MISTAKES = [
    (setting({"ohm": 70}, "output_low"), "`output_low` lacks `pin_ampere` or `drive_ampere`", "{"),
    (setting({"pin_ampere": 0.04}, "output_low"), "`output_low` lacks `ohm`", "{"),
    (setting(0, "output_low", "ohm"), "`ohm` is not more than 0", "0"),
    (setting(40, "output_low", "pin_ampere"), "`pin_ampere` is more than 0.5", "40"),
    (setting(200, "output_low", "total_ampere"), "`total_ampere` is more than 5", "200"),
    (setting("40 mA", "output_low", "pin_ampere"), "`pin_ampere` is not a number", '"40 mA"'),
    (setting(0.001, "output_low", "total_ampere"), "one pin may sink more than all toge", "0.04"),
    (setting(3, "pins", 0, "sink_ampere"), "`sink_ampere` is more than 0.5", "3"),
    (setting({"min": 7000}, "pins", 0, "pull_up_ohm"), "`pull_up_ohm` lacks `max`", "{"),
    (setting({"min": 9, "max": 8}, "pins", 0, "pull_up_ohm"), "`min` is more than `max`", "{"),
]


@pytest.mark.parametrize(("change", "message", "letters"), MISTAKES)
def test_each_mistake_is_told_at_its_place(tmp_path, change, message, letters):
    document = good() | {"output_low": dict(LOW)}
    is_told(tmp_path, change, message, letters, document)
    assert len(load(tmp_path, document)[1]) == 1


def test_amperes_that_were_meant_as_milliamperes_are_told_their_unit(tmp_path):
    found = only(load(tmp_path, good() | {"output_low": LOW | {"pin_ampere": 40}})[1])
    assert [note.text for note in found.notes] == ["the most that one pin may sink, in amperes"]


@pytest.mark.parametrize(
    ("having", "figure", "value"),
    [("output", "sink_ampere", 0.003), ("pull_up", "pull_up_ohm", {"min": 1, "max": 2})],
)
def test_a_figure_of_what_a_pin_does_not_have_is_a_mistake(tmp_path, having, figure, value):
    document = good()
    document["pins"][0] |= {having: False, figure: value}
    found = only(load(tmp_path, document)[1])
    assert found.message == f"`PB0` has a `{figure}`, but no `{having}`"
    assert len(found.notes) == 1


def test_how_a_level_follows_the_supply_is_the_worse_guess_where_it_is_not_said(tmp_path):
    document = good()
    document["input_volts"] = {"low_max": 1.0, "high_min": 3.0}
    profile = sound(tmp_path, document)
    low, high = profile.at_supply(4.0), profile.at_supply(5.25)
    assert (low.input_low_volts, low.input_high_volts) == pytest.approx((0.8, 3.0))
    assert (high.input_low_volts, high.input_high_volts) == pytest.approx((1.0, 3.15))


def test_a_pin_that_a_resistor_holds_low_is_not_offered_and_a_large_one_does_no_harm(tmp_path):
    for ohm, is_offered in ((10_000, False), (1_000_000, True)):
        document = good()
        document["pins"][0] |= {
            "use": "shared",
            "duty": "is pulled down",
            "advice": "take another",
            "part": "resistor to ground",
            "part_ohm": ohm,
        }
        profile = sound(tmp_path, document)
        assert (profile.pins[0] in profile.usable_pins) == is_offered
        assert (profile.pins[0] in profile.pins_round_the_board) == is_offered
