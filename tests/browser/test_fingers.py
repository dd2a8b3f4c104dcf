"""What presses keys in a page: a mouse, fingers, the keyboard's focus, the computer's own keys."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.browser.browsers import Started, only_chromium
from tests.browser.pads import desk_pad
from tests.browser.pages import Live, data_of
from tests.browser.screens import ChromiumScreen, Screen


@pytest.fixture
def desk(live: Callable[[dict[str, Any]], Live]) -> Live:
    return live(data_of(desk_pad))


@pytest.fixture
def screen(started: Started, desk: Live) -> Screen:
    return started.screen(desk.page)


def test_a_mouse_presses_a_key_for_as_long_as_its_button_is_down(desk: Live) -> None:
    desk.page.mouse.move(*desk.place("B"))
    desk.page.mouse.down()
    desk.pass_ms(20)
    assert desk.down == ["B"]
    desk.page.mouse.up()
    desk.pass_ms(20)
    assert desk.down == []
    assert desk.reports == ["keyboard: B down", "keyboard: nothing down"]


def test_a_pointer_that_leaves_its_key_stays_that_key_s_and_lets_it_go(desk: Live) -> None:
    note = (
        "addEventListener('pointerup', (event) => { window.of = event.target.parentNode.dataset; })"
    )
    desk.page.evaluate(note)
    desk.page.mouse.move(*desk.place("B"))
    desk.page.mouse.down()
    desk.page.mouse.move(700, 590)
    assert desk.down == ["B"]
    desk.page.mouse.up()
    assert desk.down == []
    assert desk.page.evaluate("({...window.of})") == {"key": "B"}


def test_another_button_presses_nothing(desk: Live) -> None:
    desk.page.mouse.move(*desk.place("B"))
    desk.page.mouse.down(button="right")
    assert desk.down == []
    desk.page.mouse.up(button="right")


def test_two_fingers_press_two_keys_and_go_one_by_one(desk: Live, screen: Screen) -> None:
    screen.down(f1=desk.place("Shift"))
    desk.pass_ms(20)
    screen.down(f2=desk.place("B"))
    desk.pass_ms(20)
    assert desk.down == ["B", "Shift"]
    screen.up("f1")
    desk.pass_ms(20)
    assert desk.down == ["B"]
    screen.up("f2")
    desk.pass_ms(20)
    assert desk.down == []
    assert desk.text == "B|"
    assert desk.reports[1] == "keyboard: Shift+B down"


def test_a_finger_that_moves_on_a_key_scrolls_no_page_and_keeps_the_key_down(
    desk: Live, screen: Screen
) -> None:
    x, y = desk.place("B")
    screen.down(f1=(x, y))
    for step in range(1, 12):
        screen.move("f1", (x, y - 5 * step))
    assert desk.down == ["B"]
    assert desk.page.evaluate("scrollY") == 0
    screen.up("f1")


def test_fingers_that_the_system_takes_away_let_go(desk: Live, screen: Screen) -> None:
    only_chromium(desk.page, "can be told so: WebDriver BiDi has no word for it")
    assert isinstance(screen, ChromiumScreen)
    screen.down(f1=desk.place("Shift"), f2=desk.place("B"))
    assert desk.down == ["B", "Shift"]
    screen.take_away()
    assert desk.down == []


def test_a_click_stays_until_the_next_where_that_is_asked_for(desk: Live) -> None:
    desk.page.get_by_label("Clicked keys stay down").check()
    for name in ("Fn", "A"):
        desk.page.mouse.click(*desk.place(name))
        desk.pass_ms(20)
    assert desk.down == ["A", "Fn"]
    assert desk.reports == ["keyboard: C down"]
    desk.page.mouse.click(*desk.place("A"))
    assert desk.down == ["Fn"]
    desk.page.get_by_label("Clicked keys stay down").uncheck()
    assert desk.down == []


def test_a_window_that_loses_the_focus_lets_all_go(desk: Live) -> None:
    desk.page.get_by_label("Use this computer's keyboard").check()
    desk.page.keyboard.down("b")
    desk.page.mouse.move(*desk.place("Shift"))
    desk.page.mouse.down()
    assert desk.down == ["B", "Shift"]
    desk.page.evaluate("window.dispatchEvent(new Event('blur'))")
    assert desk.down == []
    desk.page.mouse.up()
    desk.page.keyboard.up("b")


def test_space_and_enter_press_the_key_that_has_the_focus(desk: Live) -> None:
    desk.page.locator('svg [data-key="B"]').focus()
    for key in ("Space", "Enter"):
        desk.page.keyboard.down(key)
        desk.page.keyboard.down(key)  # the computer repeats it
        desk.pass_ms(20)
        assert desk.down == ["B"]
        desk.page.keyboard.up(key)
        desk.pass_ms(20)
    desk.page.keyboard.press("x")
    assert desk.text == "bb|"


def test_a_picture_is_one_stop_of_tab_and_arrow_keys_go_on_in_it(desk: Live) -> None:
    names = [key["name"] for key in data_of(desk_pad)["keys"]]
    focused = "document.activeElement.dataset.key"
    desk.page.locator(f'svg [data-key="{names[0]}"]').focus()
    for press, key in (("ArrowRight", names[1]), ("End", names[-1]), ("ArrowLeft", names[-2])):
        desk.page.keyboard.press(press)
        assert (desk.page.evaluate(focused), desk.down) == (key, [])
    desk.page.keyboard.press("ArrowUp")
    assert desk.page.evaluate(focused) == names[-2], "there is no key above"
    desk.page.keyboard.press("Tab")
    assert desk.page.evaluate(focused) is None
    desk.page.keyboard.press("Shift+Tab")
    assert desk.page.evaluate(focused) == names[-2], "it comes back to where it was"


def test_a_taken_key_moves_no_focus(desk: Live) -> None:
    focused = "document.activeElement.dataset.key"
    desk.page.get_by_label("Use this computer's keyboard").check()
    desk.page.locator('svg [data-key="A"]').focus()
    for code, key in (("Tab", "Tab"), ("Home", "Home")):
        desk.page.keyboard.down(code)
        assert (desk.page.evaluate(focused), desk.down) == ("A", [key])
        desk.page.keyboard.up(code)


def test_a_key_is_a_button_that_says_whether_it_is_pressed(desk: Live) -> None:
    key = desk.page.get_by_role("button", name="B", exact=True)
    assert key.get_attribute("aria-pressed") == "false"
    desk.page.evaluate("board.fingers.hold('finger', 'B')")
    assert key.get_attribute("aria-pressed") == "true"
    desk.page.evaluate("board.fingers.letGo('finger')")
    assert key.get_attribute("aria-pressed") == "false"


def test_the_computer_s_keys_press_the_board_s_by_where_they_are(desk: Live) -> None:
    desk.page.get_by_label("Use this computer's keyboard").check()
    desk.page.keyboard.down("ShiftLeft")
    desk.pass_ms(10)
    desk.page.keyboard.down("KeyB")
    desk.pass_ms(10)
    assert desk.down == ["B", "Shift"]
    desk.page.keyboard.up("KeyB")
    desk.page.keyboard.up("ShiftLeft")
    desk.page.keyboard.press("KeyZ")  # the board has none
    desk.pass_ms(20)
    assert desk.text == "B|"


def test_of_two_keys_with_one_usage_the_one_that_does_nothing_else_is_pressed(desk: Live) -> None:
    desk.page.get_by_label("Use this computer's keyboard").check()
    for code, name in (("KeyA", "A.2"), ("Space", "Space"), ("ControlLeft", "Once")):
        desk.page.keyboard.down(code)
        assert desk.down == [name]
        desk.page.keyboard.up(code)


def test_nothing_is_taken_without_the_tick_or_the_focus(desk: Live) -> None:
    desk.page.keyboard.down("b")
    assert desk.down == []
    desk.page.keyboard.up("b")
    desk.page.get_by_label("Use this computer's keyboard").check()
    desk.page.keyboard.down("b")
    assert desk.down == ["B"]
    desk.page.get_by_role("button", name="Clear the text").focus()
    assert desk.down == [], "a key that the area no longer hears of"
    desk.page.keyboard.down("1")
    assert desk.down == []
    for key in ("b", "1"):
        desk.page.keyboard.up(key)


def test_escape_twice_gives_the_computer_s_keys_back(desk: Live) -> None:
    box = desk.page.get_by_label("Use this computer's keyboard")
    box.check()
    for key in ("Escape", "b", "Escape"):
        desk.page.keyboard.press(key)
    assert box.is_checked(), "a key came between"
    desk.page.keyboard.press("Escape")
    assert not box.is_checked()
    assert desk.down == []
    assert desk.page.evaluate("document.activeElement.dataset.press") == "take"
    described = box.get_attribute("aria-describedby") or ""
    assert "Escape twice" in (desk.page.locator(f"#{described}").text_content() or "")


def test_a_key_that_two_hold_is_up_when_both_have_let_go(desk: Live) -> None:
    desk.page.get_by_label("Use this computer's keyboard").check()
    desk.page.mouse.move(*desk.place("B"))
    desk.page.mouse.down()
    desk.page.keyboard.down("b")
    desk.page.mouse.up()
    desk.pass_ms(20)
    assert (desk.down, desk.reports) == (["B"], ["keyboard: B down"])
    desk.page.keyboard.up("b")
    desk.pass_ms(20)
    assert (desk.down, desk.reports[1:]) == ([], ["keyboard: nothing down"])
