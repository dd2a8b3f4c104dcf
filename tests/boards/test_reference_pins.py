"""The bare chips' pins against a table that names the source of each row (`data/README.md`)."""

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from tests.boards.chip_facts import table

USES = {"free": "free", "conditional": "shared", "reserved": "reserved"}

NO_USE_FOR_A_LINE = {
    ("CH552T", "RST", "shared", "reserved"),
    ("ESP32-S2", "GPIO46", "shared", "reserved"),
}
"""The table lets them be used with care: each is an input with a pull-down for good, so that it
could neither drive a line nor be pulled up, and a count of pins must leave it out."""


def chips() -> dict[str, str]:
    """The name of each profile of a bare chip, by its chip."""
    found = (profile for name in builtin_names() if (profile := builtin_profile(name)))
    return {one.chip: one.name for one in found if one.name == one.chip.lower()}


def test_the_table_has_every_chip_that_there_is_a_profile_of():
    assert {row["mcu"] for row in table()} == set(chips())


def test_each_pin_may_be_used_as_the_table_says():
    different = set()
    for row in table():
        pin = builtin_profile(chips()[row["mcu"]]).pin(row["pin"])
        assert pin is not None, row
        if pin.use != USES[row["class"]]:
            different.add((row["mcu"], row["pin"], USES[row["class"]], pin.use))
    assert different == NO_USE_FOR_A_LINE


@pytest.mark.parametrize("chip", chips())
def test_no_usable_pin_is_missing_in_the_table(chip):
    named = {row["pin"] for row in table() if row["mcu"] == chip}
    assert {pin.name for pin in builtin_profile(chips()[chip]).usable_pins} <= named


def test_pins_without_output_or_pull_up_are_those_that_take_no_line():
    for name in builtin_names():
        for pin in builtin_profile(name).pins:
            assert pin.output == pin.pull_up == pin.is_usable, (name, pin.name)
