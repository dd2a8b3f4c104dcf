"""The pointer behind the usb folder: requests of HID 1.11 section 7.2, hardships of an endpoint."""

from __future__ import annotations

import pytest

from matrixgen.behaviour.pointer import REPORT as POINTER
from tests.firmware.host_build import COMPILERS, host_view, shared_library
from tests.firmware.pads import lone_pointer, pointer_pad
from tests.firmware.test_host_usb import (
    BUS_RESET,
    BUS_RESUME,
    BUS_SUSPEND,
    SET_BOOT_PROTOCOL,
)
from tests.firmware.test_media_usb import (
    CLEAR_MEDIA_HALT,
    HALT_MEDIA,
    SET_INTERFACE_1,
    SET_REPORT_PROTOCOL,
    MediaKeyboard,
)
from tests.reports import any_number

BUTTON_1, NO_BUTTON = b"\4\1\0\0\0\0", b"\4\0\0\0\0\0"
GET_BOOT_REPORT = bytes([0xA1, 1, 0, 1, 0, 0, 8, 0])
GET_POINTER_REPORT = bytes([0xA1, 1, 4, 1, 1, 0, 16, 0])


@pytest.fixture(scope="module", params=COMPILERS)
def library(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp(request.param)
    board = pointer_pad()
    return MediaKeyboard(
        shared_library(board, folder, request.param, with_usb=True), host_view(board)
    )


@pytest.fixture
def keys(library):
    library.restart()
    library.configure()
    yield library
    assert library.faults() == 0


def pass_ms(keys: MediaKeyboard, milliseconds: int) -> list[bytes]:
    """Let time pass; the host asks for both interfaces' reports each millisecond."""
    found = []
    for _ in range(milliseconds):
        keys.c.host_advance_ms(1)
        keys.turn(1)
        keys.packet()
        report = keys.media()
        if report is not None and report[0] == POINTER:
            found.append(report)
    return found


def test_get_report_has_the_buttons_and_no_movement(keys) -> None:
    keys.tell("B1", True)
    keys.tell("Right", True)
    pass_ms(keys, 20)
    assert keys.read(GET_POINTER_REPORT) == BUTTON_1
    assert keys.refuses(bytes([0xA1, 1, 3, 1, 1, 0, 16, 0])), "there is no report 3"
    assert keys.refuses(bytes([0x21, 10, 4, 5, 1, 0, 0, 0])), "it is never repeated"
    keys.write(bytes([0x21, 10, 4, 0, 1, 0, 0, 0]))


def test_the_boot_protocol_is_silent_and_movement_in_it_is_lost(keys) -> None:
    keys.write(SET_BOOT_PROTOCOL)
    keys.tell("Right", True)
    keys.tell("B1", True)
    assert pass_ms(keys, 50) == []
    keys.tell("Right", False)
    keys.write(SET_REPORT_PROTOCOL)
    assert pass_ms(keys, 20) == [BUTTON_1]


def test_a_button_let_go_while_the_host_slept_is_up_afterwards_and_nothing_moves(keys) -> None:
    keys.tell("B1", True)
    assert pass_ms(keys, 3) == [BUTTON_1]
    keys.tell("Right", True)
    pass_ms(keys, 20)
    keys.c.host_bus(BUS_SUSPEND)
    keys.turn()
    keys.tell("B1", False)
    keys.tell("Right", False)
    keys.c.host_bus(BUS_RESUME)
    assert pass_ms(keys, 20) == [NO_BUTTON]


@pytest.mark.parametrize("how", ["reset", "halt", "interface"])
def test_a_button_that_may_not_have_been_heard_is_told_again(keys, how: str) -> None:
    keys.tell("B1", True)  # nobody takes it
    if how == "reset":
        keys.c.host_bus(BUS_RESET)
        keys.turn()
        keys.configure()
    elif how == "halt":
        keys.write(HALT_MEDIA)
        keys.write(CLEAR_MEDIA_HALT)
    else:
        keys.write(SET_INTERFACE_1)
    assert pass_ms(keys, 5) == [BUTTON_1]


def test_a_release_that_may_not_have_been_heard_is_told_again(keys) -> None:
    keys.tell("B1", True)
    assert pass_ms(keys, 5) == [BUTTON_1]
    keys.tell("B1", False)  # nobody takes it
    keys.write(HALT_MEDIA)
    keys.write(CLEAR_MEDIA_HALT)
    assert pass_ms(keys, 5) == [NO_BUTTON]


def test_get_report_has_nothing_of_an_answer_before_it(keys) -> None:
    keys.write(SET_BOOT_PROTOCOL)
    for key in ("A", "But"):
        keys.tell(key, True)
        keys.packet()
    assert keys.read(GET_BOOT_REPORT)[2:4] == b"\4\7"
    assert keys.read(GET_POINTER_REPORT) == NO_BUTTON


def test_a_held_way_goes_on_after_a_reset(keys) -> None:
    keys.tell("Right", True)
    pass_ms(keys, 20)
    keys.c.host_bus(BUS_RESET)
    keys.turn()
    keys.configure()
    assert any(report[2] for report in pass_ms(keys, 40))


def test_a_host_that_never_asks_for_the_pointer_gets_every_key_at_once(keys) -> None:
    keys.tell("Right", True)
    for _ in range(200):
        keys.c.host_advance_ms(1)
        keys.turn(1)
    keys.tell("A", True)
    assert keys.packet() == any_number(0, 0x04)


def test_a_button_that_nobody_takes_keeps_keys_for_a_while_only(keys) -> None:
    keys.tell("B1", True)
    keys.tell("A", True)
    assert keys.packet() is None
    keys.c.host_advance_ms(60)
    keys.turn()
    assert keys.packet() == any_number(0, 0x04)


def test_a_keyboard_of_nothing_but_a_pointer_has_one_report_there(tmp_path) -> None:
    board = lone_pointer()
    keys = MediaKeyboard(shared_library(board, tmp_path, with_usb=True), host_view(board))
    keys.configure()
    keys.tell("Button1", True)
    assert keys.media() == BUTTON_1
    assert keys.refuses(bytes([0xA1, 1, 1, 1, 1, 0, 16, 0])), "no report of media keys"
    keys.tell("WheelUp", True)
    assert keys.media() == b"\4\1\0\0\1\0"
