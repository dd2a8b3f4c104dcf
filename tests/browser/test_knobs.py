"""Knobs in a page: a button for each direction, and the engine counts the contacts."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.browser.pages import Live, data_of
from tests.firmware.pads import knob_pad


@pytest.fixture
def pad(live: Callable[[dict[str, Any]], Live]) -> Live:
    return live(data_of(knob_pad))


def turn(pad: Live, step: str, times: int = 1) -> None:
    for _ in range(times):
        pad.page.get_by_role("button", name=step, exact=True).click()


def test_a_button_turns_a_knob_by_a_step_each_way(pad: Live) -> None:
    turn(pad, "volume right", 2)
    turn(pad, "zoom left")
    pad.pass_ms(40)
    up, nothing = "media: VolumeUp down", "media: nothing down"
    assert pad.reports.count(up) == 2 and pad.reports.count(nothing) == 2
    assert [one for one in pad.reports if one.startswith("keyboard")] == [
        "keyboard: Ctrl+Minus down",
        "keyboard: nothing down",
    ]


def test_steps_take_the_layers_that_are_on_and_a_keyboard_plugged_in_anew_knows_none(
    pad: Live,
) -> None:
    pad.page.mouse.move(*pad.place("Num"))
    pad.page.mouse.down()
    pad.pass_ms(20)
    pad.page.mouse.up()
    pad.pass_ms(20)
    turn(pad, "scroll right")
    pad.pass_ms(3)
    pad.page.evaluate("board.restart()")
    pad.pass_ms(40)
    assert pad.reports == []
    turn(pad, "volume left")
    pad.pass_ms(10)
    assert pad.reports == ["media: VolumeDown down", "media: nothing down"]
