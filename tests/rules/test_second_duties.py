"""A pin whose second duty leaves nothing to do is no warning, but a line of the pin table."""

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.emit.outside_text import markdown_text
from matrixgen.emit.pin_table import markdown, pin_table
from matrixgen.model import Severity
from tests.texts import examined

SHARED = {
    name: [pin for pin in builtin_profile(name).usable_pins if pin.use == "shared"]
    for name in builtin_names()
}
WITH_SHARED = [name for name, pins in SHARED.items() if pins]


def on_shared_pins(controller):
    """Every shared pin of a controller as a column, and one free pin for the row."""
    pins = SHARED[controller]
    free = builtin_profile(controller).free_pins[0]
    keys = [f"F{number}" for number in range(1, len(pins) + 1)]
    lines = [
        'keyboard "Pad"',
        f"  controller {controller}",
        f"plate\n  line {' '.join(keys)}",
        "wiring\n  drive rows, sense columns\n  diodes 1N4148, band toward rows",
        f"  row r on {free.name} {' '.join(keys)}",
        *(f"  column {key} on {pin.name} {key}" for key, pin in zip(keys, pins, strict=True)),
    ]
    return examined("\n".join(lines) + "\n")


@pytest.mark.parametrize("controller", WITH_SHARED)
def test_a_warning_is_of_a_pin_that_leaves_something_to_do(controller):
    findings = on_shared_pins(controller).findings
    warned = [one for one in findings if one.slug == "pin-with-second-function"]
    held = {name for one in findings if one.slug == "pin-held-low" for name in one.about}
    asking = [pin for pin in SHARED[controller] if not pin.advice.startswith("nothing")]
    names = [pin.name for pin in asking if pin.name not in held]
    assert sorted(next(iter(one.about & set(names))) for one in warned) == sorted(names)
    for found in findings:
        assert found.severity is Severity.ERROR or found.helps
        assert not any(help.startswith("nothing") for help in found.helps)


@pytest.mark.parametrize("controller", WITH_SHARED)
def test_the_pin_table_has_every_second_duty(controller):
    (mounted,) = on_shared_pins(controller).mounted
    table = markdown(pin_table(mounted))
    for pin in SHARED[controller]:
        assert f": {markdown_text(pin.duty)}; {markdown_text(pin.advice)}." in table


def test_pins_are_offered_by_what_they_ask_for():
    for name in builtin_names():
        costs = [pin.cost for pin in builtin_profile(name).usable_pins]
        assert costs == sorted(costs)


def test_each_built_in_shared_pin_says_what_it_asks_for_and_that_agrees_with_its_advice():
    for name, pins in SHARED.items():
        for pin in pins:
            assert pin.asks, (name, pin.name)
            assert pin.asks_nothing == pin.advice.startswith("nothing to "), (name, pin.name)
            is_last = pin.asks == "last resort" or pin.part is not None
            assert is_last or not pin.advice.startswith("use it last"), (name, pin.name)


def test_boot_straps_and_parts_cost_more_than_what_leaves_nothing_to_do():
    nothing = 2
    for name, pins in SHARED.items():
        for pin in pins:
            asking = "boot strap" in pin.duty or "light" in pin.duty or pin.part is not None
            if asking and not pin.asks_nothing:
                assert pin.cost > nothing, (name, pin.name)
    for board, cheaper, dearer in (
        ("atmega32u4", "PF4", "PE2"),
        ("board-32u4-25", "PF4", "PD6"),
        ("stm32f401cc", "PA15", "PB2"),
    ):
        cost = {pin.name: pin.cost for pin in SHARED[board]}
        assert cost[cheaper] < cost[dearer]
