"""A file that names several controllers: each is checked, and what is the same is said once."""

import re

import pytest

from matrixgen.jobs.examine import examine

TWO = """\
keyboard "Pad"
  controller atmega32u4, rp2040-40pin

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0, GP2  A B
  column c0 on PB0, GP3  A
  column c1 on PB1, GP4  B
"""


@pytest.fixture
def found(tmp_path):
    def examined(text):
        path = tmp_path / "pad.keys"
        path.write_text(text, encoding="utf-8")
        return examine(str(path))

    return examined


def told(examined):
    return [(one.span.line, one.slug, one.help) for one in examined.findings]


def test_each_controller_has_its_pin_budget(program):
    ran = program("check", program.write("pad.keys", TWO))
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        "nothing found in 1 file",
        "pad.keys: 3 pins needed, 26 usable on `atmega32u4`, 23 spare",
        "pad.keys: 3 pins needed, 26 usable on `rp2040-40pin`, 23 spare",
    ]


def test_a_sound_file_has_a_keyboard_for_each_controller_with_its_own_pins(found):
    examined = found(TWO)
    assert [one.profile.name for one in examined.variants] == ["atmega32u4", "rp2040-40pin"]
    pins = [[str(line.pin) for line in one.keyboard.wiring.lines] for one in examined.variants]
    assert pins == [["PD0", "PB0", "PB1"], ["GP2", "GP3", "GP4"]]
    first = examined.variants[0]
    assert (examined.keyboard, examined.profile) == (first.keyboard, first.profile)


def test_a_file_of_one_controller_has_one_variant(found):
    (only,) = found(re.sub(", (?:GP.|rp2040-40pin)", "", TWO)).variants
    assert only.profile.name == "atmega32u4"
    assert [str(line.pin) for line in only.keyboard.wiring.lines] == ["PD0", "PB0", "PB1"]


def test_a_mistake_on_the_second_controller_alone_is_found(found):
    examined = found(TWO.replace("GP4", "GP3"))
    assert [(one.slug, one.span.column) for one in examined.findings] == [("pin-used-twice", 21)]


def test_a_mistake_that_has_nothing_to_do_with_pins_is_told_once(found):
    examined = found(TWO.replace("toward columns", "toward rows"))
    assert [one.slug for one in examined.findings] == ["diode-against-scan"]


def test_a_mistake_whose_cure_differs_is_told_once_with_both_cures(found):
    ((line, slug, help),) = told(found(TWO.replace(" on PB1, GP4", "")))
    assert (line, slug) == (12, "line-without-pin")
    assert help.startswith("on `atmega32u4`: add `on PB4`")
    assert "; on `rp2040-40pin`: add `on GP" in help


def test_an_unknown_controller_does_not_hide_what_is_found_on_the_other(found):
    text = TWO.replace("atmega32u4", "atmega99").replace("GP4", "GP3")
    examined = found(text)
    assert [one.slug for one in examined.findings] == ["unknown-controller", "pin-used-twice"]
    assert (examined.profile, examined.is_sound) == (None, False)
    assert [one.profile.name for one in examined.variants] == ["rp2040-40pin"]


def test_a_warning_of_one_controller_is_allowed_for_the_file(found):
    text = TWO.replace("PB1", "PF4")
    assert [slug for _, slug, _ in told(found(text))] == ["pin-with-second-duty"]
    allowed = text.replace("40pin\n", "40pin\n  allow pin-with-second-duty\n")
    assert told(found(allowed)) == []
