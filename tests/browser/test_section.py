"""What the section "Press it" shows: layers, undecided keys, reports, text, and why it cannot."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from matrixgen.emit.press_data import press_data
from matrixgen.jobs.press import press_data_of
from matrixgen.model import Keyboard
from matrixgen.toolchain.web_engine import NO_COMPILER
from tests.browser.pads import desk_pad, draft, plate_alone
from tests.browser.pages import Live, data_of
from tests.firmware.pads import lone_pointer

Opener = Callable[[dict[str, Any]], Live]


@pytest.fixture
def desk(live: Opener) -> Live:
    return live(data_of(desk_pad))


def test_a_page_with_an_engine_gives_no_reason(desk: Live) -> None:
    assert desk.part("reason") == ""
    assert not desk.page.locator('[data-press="reason"]').is_visible()
    assert desk.page.locator('[data-press="live"]').is_visible()


def test_layers_are_named_from_the_top_down_as_they_come_and_go(desk: Live) -> None:
    assert desk.part("layers") == "base"
    desk.page.evaluate("board.fingers.hold('finger', 'Fn')")
    desk.pass_ms(10)
    assert desk.part("layers") == "more, base"
    desk.page.evaluate("board.fingers.letGo('finger')")
    desk.pass_ms(10)
    desk.tap("Base")
    assert desk.part("layers") == "other, base"


def test_a_changed_base_that_is_remembered_outlasts_the_power(desk: Live) -> None:
    desk.tap("Base")
    desk.page.get_by_role("button", name="Unplug").click()
    assert desk.part("layers") == "other, base"
    desk.tap("B")
    assert desk.text == "2|"


def test_a_tap_or_hold_shows_until_it_is_decided_and_so_does_what_waits_for_it(desk: Live) -> None:
    assert desk.part("undecided") == "none"
    for name in ("A", "B"):
        desk.page.evaluate("(key) => board.fingers.hold(key, key)", name)
        desk.pass_ms(10)
    assert desk.classes("A") == ["is-down", "is-undecided"]
    assert desk.classes("B") == ["is-down", "is-waiting"]
    assert desk.part("undecided") == "A"
    desk.pass_ms(200)
    assert (desk.classes("A"), desk.classes("B")) == (["is-down"], ["is-down"])
    assert desk.reports == ["keyboard: Shift down", "keyboard: Shift+B down"]


def test_a_report_is_shown_with_its_time_and_its_bytes(desk: Live) -> None:
    desk.tap("1")
    line = desk.page.locator('[data-press="log"] li').last
    assert line.locator(".press-time").text_content() == "1 ms"
    shown = bytes.fromhex(line.locator(".press-bytes").text_content() or "")
    assert (shown[:3], len(shown), shown[8 + 0x1E // 8]) == (b"\0\0\x1e", 36, 1 << (0x1E & 7))


def test_only_the_newest_reports_are_kept(desk: Live) -> None:
    for _ in range(10):
        desk.tap("B")
    assert desk.reports == 6 * ["keyboard: B down", "keyboard: nothing down"]


def test_media_keys_are_told_in_words(desk: Live) -> None:
    desk.tap("Up")
    desk.tap("Fn", "Up")
    told = [one for one in desk.reports if one.startswith("media")]
    assert told == [f"media: {word} down" for word in ("VolumeUp", "nothing", "Sleep", "nothing")]


def test_a_pointer_is_drawn_and_told_of_in_words(live: Opener) -> None:
    desk = live(data_of(lone_pointer))
    place = desk.page.locator('[data-press="pointer"]')
    assert place.get_attribute("cx") == "48" and place.get_attribute("cy") == "27"
    desk.page.evaluate("board.fingers.hold('finger', 'PointerRight')")
    desk.pass_ms(300)
    desk.page.evaluate("board.fingers.letGo('finger')")
    desk.pass_ms(80)
    moved = [one for one in desk.reports if one.startswith("pointer: moved")]
    steps = sum(int(one.split()[2]) for one in moved)
    assert 95 <= steps <= 105, "a third of a second at 333 steps a second"
    assert float(place.get_attribute("cx") or 0) == pytest.approx(48 + steps / 20)
    desk.tap("Button1")
    desk.tap("WheelUp")
    assert "pointer: Button1 down" in desk.reports
    words = f"{steps} to the right, 0 down; wheel 1 up, 0 to the right; no button down"
    assert desk.part("moved") == words


def test_a_page_without_a_pointer_has_no_field_for_one(desk: Live) -> None:
    assert desk.page.locator('[data-press="pointer"]').count() == 0


def test_a_text_is_typed_with_shift_caps_lock_and_breaks(desk: Live) -> None:
    for names in (("B",), ("Shift", "B"), ("Caps",), ("B",), ("Shift", "B"), ("1",), ("Enter",)):
        desk.tap(*names)
    assert desk.text == "bBBb1\n|"
    assert desk.part("locks") == "Caps Lock on, Num Lock on"
    for names in (("Shift", "1"), ("Tab",), ("Home",)):
        desk.tap(*names)
    assert desk.text == "bBBb1\n|!\t"
    desk.page.get_by_role("button", name="Clear the text").click()
    assert desk.text == "|"


def test_a_keyboard_that_left_for_its_boot_loader_says_so_and_does_nothing(desk: Live) -> None:
    assert desk.part("message") == ""
    for name in ("Load", "1"):  # in one scan
        desk.page.evaluate("(key) => board.fingers.hold(key, key)", name)
    desk.pass_ms(1)
    desk.tap("B")
    desk.page.evaluate("board.fingers.hold('finger', 'Fn')")
    desk.pass_ms(10)
    assert "has started its boot loader" in desk.part("message")
    assert (desk.reports, desk.part("layers")) == ([], "base")
    desk.page.get_by_role("button", name="Unplug").click()
    desk.tap("B")
    assert (desk.part("message"), desk.text) == ("", "b|")


def test_unplugging_lets_keys_go_and_keeps_the_text(desk: Live) -> None:
    desk.tap("B")
    desk.page.evaluate("board.fingers.hold('finger', 'B')")
    desk.pass_ms(10)
    desk.page.get_by_role("button", name="Unplug").click()
    desk.pass_ms(30)
    assert (desk.down, desk.text) == ([], "bb|")
    desk.tap("B")
    assert desk.text == "bbb|"


def test_time_passes_by_itself_and_a_page_that_slept_has_not_typed_meanwhile(desk: Live) -> None:
    desk.page.evaluate("board.run()")
    desk.page.mouse.move(*desk.place("Space"))
    desk.page.mouse.down()
    layers = desk.page.locator("[data-press=layers]")
    expect(layers).to_have_text("more, base")
    desk.page.mouse.up()
    expect(layers).to_have_text("base")
    passed = (
        "board.seen -= 60000; const before = board.ms; board.catchUp(); return board.ms - before"
    )
    assert desk.page.evaluate(f"(() => {{ {passed} }})()") == 250
    desk.page.evaluate("board.halt()")


def test_layers_alone_are_told_to_a_screen_reader_as_they_change(desk: Live) -> None:
    told = desk.page.locator("[aria-live], [role=status], [role=log], [role=alert]").all()
    assert {one.get_attribute("data-press") for one in told} == {"layers", "message"}
    heads = desk.page.get_by_role("heading").all_text_contents()
    wanted = "Layers that are on", "What a US computer would type", "What leaves the keyboard"
    assert heads == ["Try the keyboard", *wanted]


def test_an_element_is_written_to_when_it_changes_and_not_at_each_frame(desk: Live) -> None:
    count = (
        "() => { window.writes = 0; new MutationObserver((all) => { window.writes += all.length; })"
        ".observe(document.body, {subtree: true, childList: true, characterData: true}); }"
    )
    desk.page.evaluate(count)
    for _ in range(5):
        desk.pass_ms(20)
    assert desk.page.evaluate("window.writes") == 0


def test_a_draft_can_be_pressed_but_for_the_keys_that_have_no_place_yet(live: Opener) -> None:
    opened = live(data_of(draft))
    opened.tap("A")
    opened.page.evaluate("board.fingers.hold('finger', 'C')")
    opened.pass_ms(10)
    assert "C has no row and no column to meet yet" in opened.part("message")
    assert opened.text == "a|"


REFUSED: dict[str, tuple[Callable[[], Keyboard], str]] = {
    "no compiler": (desk_pad, 'pip install "matrixgen[compiler]"'),
    "no matrix": (plate_alone, "nothing to press"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_page_without_an_engine_says_why(case: str, live: Opener, page: Page) -> None:
    make, words = REFUSED[case]
    keyboard = make()
    is_missing = case == "no compiler"
    data = press_data(keyboard, NO_COMPILER) if is_missing else press_data_of(keyboard, "pad.keys")
    opened = live(data)
    assert words in opened.part("reason")
    assert page.locator('[data-press="reason"]').is_visible()
    assert not page.locator('[data-press="live"]').is_visible()
    page.mouse.click(*opened.place("A"))
    assert opened.down == []


def test_a_browser_that_cannot_run_the_engine_says_so(live: Opener, page: Page) -> None:
    opened = live({**data_of(desk_pad), "engine": "AAAA"})  # as little as one without WebAssembly
    assert "does not run the keyboard's engine" in opened.part("reason")
