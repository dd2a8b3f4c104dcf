"""A file that names several controllers: each is checked, and what is the same is said once."""

import re

from tests.texts import examined, good_on

TWO = good_on("atmega32u4, rp2040-40pin", "PD0, GP2", "PB0, GP3", "PB1, GP4")


def told(text):
    return [(one.span.line, one.slug, one.helps) for one in examined(text).findings]


def test_each_controller_has_its_pin_budget(program):
    ran = program("check", program.write("pad.keys", TWO))
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        "pad.keys: needs 3 of 26 usable pins on `atmega32u4`, 23 spare",
        "pad.keys: needs 3 of 26 usable pins on `rp2040-40pin`, 23 spare",
        "ready to build: no findings",
    ]


def test_a_sound_file_has_a_keyboard_for_each_controller_with_its_own_pins():
    found = examined(TWO)
    assert [one.profile.name for one in found.mounted] == ["atmega32u4", "rp2040-40pin"]
    pins = [[wired.word.text for wired in one.wired] for one in found.mounted]
    assert pins == [["PD0", "PB0", "PB1"], ["GP2", "GP3", "GP4"]]
    assert {id(one.keyboard) for one in found.mounted} == {id(found.design.keyboard)}


def test_a_file_of_one_controller_is_mounted_once():
    (only,) = examined(re.sub(", (?:GP.|rp2040-40pin)", "", TWO)).mounted
    assert only.profile.name == "atmega32u4"
    assert [wired.pin.name for wired in only.wired] == ["PD0", "PB0", "PB1"]


def test_a_mistake_on_the_second_controller_alone_is_found():
    found = examined(TWO.replace("GP4", "GP3"))
    assert [(one.slug, one.span.column) for one in found.findings] == [("pin-used-twice", 21)]


def test_a_mistake_that_has_nothing_to_do_with_pins_is_told_once():
    found = examined(TWO.replace("toward columns", "toward rows"))
    assert [one.slug for one in found.findings] == ["diode-against-scan"]


def test_a_mistake_on_each_controller_is_told_at_the_pin_of_each():
    text = TWO.replace("atmega32u4, rp2040-40pin", "atmega16u4, at90usb646")
    text = (
        text.replace("GP2", "PD0").replace("PB0, GP3", "PB4, PB4").replace("PB1, GP4", "PB4, PB4")
    )
    assert told(text) == [
        (12, "pin-used-twice", ("`PB0` is spare",)),
        (12, "pin-used-twice", ("`PA0` is spare",)),
    ]


def test_a_line_without_a_pin_is_open_once_with_a_pin_for_each():
    (point,) = examined(TWO.replace(" on PB1, GP4", "")).open_points
    assert point.missing == "no pin for `c1`"
    assert point.finding.helps == ("add `on PB4, GPIO0`, which are spare",)


def test_an_unknown_controller_does_not_hide_what_is_found_on_the_other():
    text = TWO.replace("atmega32u4", "atmega99").replace("GP4", "GP3")
    found = examined(text)
    assert [one.slug for one in found.findings] == ["unknown-controller", "pin-used-twice"]
    assert not found.is_sound
    assert [one.profile.name for one in found.mounted] == ["rp2040-40pin"]


def test_a_warning_of_one_controller_is_allowed_for_the_file():
    text = TWO.replace("PB1", "PE2")
    assert [slug for _, slug, _ in told(text)] == ["pin-with-second-function"]
    allowed = text.replace("40pin\n", "40pin\n  allow pin-with-second-function\n")
    assert told(allowed) == []
