"""Numbers that the templates get: lines, actions, settling time, USB strings."""

from __future__ import annotations

import pytest

from matrixgen.emit.c_text import c_comment, usb_string
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.model import Press
from matrixgen.record import changed
from tests.firmware.build_model import SOURCE, keyboard, mounted, profile
from tests.firmware.host_build import host_view
from tests.firmware.pads import small_pad


def test_an_action_that_several_keys_share_is_numbered_once() -> None:
    view = host_view(small_pad())
    fields = [(action.row.kind, action.row.operand) for action in view.actions]
    assert len(set(fields)) == len(fields)
    assert [action.number for action in view.actions] == list(range(1, len(fields) + 1))


def test_an_empty_crossing_has_no_key_and_every_other_has_its_own() -> None:
    view = host_view(small_pad())
    assert view.key_at == ((0, 3, 7), (1, 4, 8), (2, 5, 9), (None, 6, 10))


def test_a_pin_s_port_and_bit_come_from_its_name() -> None:
    senses = firmware_view(mounted(small_pad(), profile()), SOURCE).senses
    assert [(line.pin, line.port, line.bit, line.axis) for line in senses] == [
        ("PB0", "B", 0, "row"),
        ("PB1", "B", 1, "row"),
        ("PB2", "B", 2, "row"),
    ]


def test_a_pin_called_by_its_board_s_label_is_emitted_by_the_chip_s_name() -> None:
    pins = tuple(
        changed(pin, label=pin.name, name=f"GP{number}")
        for number, pin in enumerate(profile().pins)
    )
    chip = profile(pins=pins, family="rp2040")
    drives = firmware_view(mounted(small_pad(), chip), SOURCE, port="host").drives
    assert [(line.pin, line.port, line.bit) for line in drives[:2]] == [
        ("GP3", "", 3),
        ("GP4", "", 4),
    ]


def test_the_file_s_own_settling_time_wins() -> None:
    own = keyboard([["A"]], {"base": {"A": Press(4)}}, settle_us=6.5)
    assert firmware_view(mounted(own, profile()), SOURCE).settle_us == 7


def test_a_debounce_time_with_a_fraction_is_rounded_up() -> None:
    own = keyboard([["A"]], {"base": {"A": Press(4)}}, debounce_ms=2.5)
    assert firmware_view(mounted(own, profile()), SOURCE).debounce_ms == 3


def test_a_usb_string_is_length_type_and_utf_16() -> None:
    assert bytes(usb_string("Grün🎹")) == b"\x0e\x03" + "Grün🎹".encode("utf-16-le")


def test_a_long_usb_string_is_cut_between_characters() -> None:
    descriptor = bytes(usb_string("x" + "🎹" * 200))
    assert descriptor[0] == len(descriptor) == 2 + 2 * 125
    assert descriptor[2:].decode("utf-16-le") == "x" + "🎹" * 62


@pytest.mark.parametrize("text", ["*/", "**//", "/*/", "*//*", "a\nb", "\u2028", "é", "\x7f"])
def test_a_comment_stays_one_comment_on_one_line_in_ascii(text: str) -> None:
    safe = c_comment(text)
    assert "*/" not in safe
    assert "/*" not in safe
    assert safe.isascii()
    assert safe.isprintable()
