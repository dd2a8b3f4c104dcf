"""What a page's script is told of a keyboard."""

from __future__ import annotations

import json

from matrixgen.emit.press_data import press_data, script_json
from matrixgen.emit.press_section import press_section
from matrixgen.model import Action, HoldLayer, Media, OnceModifiers, Press, TapHold, matrix_of
from matrixgen.toolchain.web_engine import NO_COMPILER, NoEngine
from matrixgen.usages import usages
from tests.browser.pads import desk_pad, draft
from tests.firmware.build_model import keyboard
from tests.firmware.pads import media_pad


def test_every_key_is_told_in_plate_order_with_the_place_of_its_lines() -> None:
    pad = desk_pad()
    told = press_data(pad, b"engine")["keys"]
    assert [key["name"] for key in told] == [key.name.text for key in pad.keys]
    contacts = {one.key: [one.drive, one.sense] for one in matrix_of(pad).contacts}
    assert {key["name"]: key["crossing"] for key in told} == contacts


def test_a_key_that_is_not_wired_yet_has_no_place() -> None:
    told = press_data(draft(), b"engine")["keys"]
    assert [key["crossing"] for key in told] == [[0, 0], [1, 0], None]


def test_the_engine_is_there_or_the_reason_why_not() -> None:
    data = press_data(desk_pad(), b"\0engine")
    assert (data["engine"], data["reason"]) == ("AGVuZ2luZQ==", None)
    data = press_data(desk_pad(), NO_COMPILER)
    assert (data["engine"], data["reason"]) == (None, NO_COMPILER.reason)


def test_layers_words_and_media_keys_are_told_in_the_language_s_words() -> None:
    data = press_data(media_pad(), b"engine")
    assert data["layers"] == ["base", "more"]
    assert set(data["words"]) == {str(usage) for usage in usages()}
    assert data["modifiers"][:2] == ["Ctrl", "Shift"]
    assert data["media"]["2"] == ["Sleep", "WakeUp"]
    assert data["media"]["1"][:2] == ["BrightnessUp", "BrightnessDown"]


def test_nothing_in_the_data_can_end_the_script_element() -> None:
    data = press_data(desk_pad(), NO_COMPILER)
    assert "</script>" in data["keyboard"]
    text = script_json(data)
    assert "<" not in text
    assert json.loads(text) == json.loads(json.dumps(data))


def test_a_reason_is_text_and_no_markup() -> None:
    html = press_section(press_data(desk_pad(), NoEngine("<b> & co")), "<svg></svg>")
    assert "&lt;b&gt; &amp; co" in html
    assert "<svg></svg>" in html


ACTIONS: dict[str, Action] = {
    "held": TapHold(Press(0x04), Press(0, 0x02)),
    "tapped": TapHold(Press(0x05), HoldLayer("more")),
    "first": Press(0x05),
    "second": Press(0x05),
    "with": Press(0x06, 0x01),
    "once": OnceModifiers(0x01),
    "two": Press(0, 0x03),
    "media": Media(0x0C, 0xE9),
    "right": Press(0, 0x20),
}


def test_a_computer_s_key_is_the_first_that_has_its_usage_plainly_else_tapped_else_held() -> None:
    names = list(ACTIONS)
    rows: list[list[str | None]] = [[*names[:5]], [*names[5:], None]]
    more: dict[str, Action] = {"second": Press(0x07)}
    pad = keyboard(rows, {"base": ACTIONS, "more": more})
    assert press_data(pad, b"engine")["computer"] == {
        "KeyA": "held",
        "KeyB": "first",
        "ControlLeft": "once",
        "ShiftLeft": "held",
        "ShiftRight": "right",
    }
