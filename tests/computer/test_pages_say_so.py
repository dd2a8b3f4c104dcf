"""The sheet and the pin table say which computer a file is written for, if it does."""

from __future__ import annotations

from matrixgen.emit.pin_table import markdown, pin_table
from matrixgen.emit.press_data import press_data
from matrixgen.emit.sheet import page, sheet_of
from matrixgen.model import Keyboard
from matrixgen.record import changed
from matrixgen.toolchain.web_engine import NO_COMPILER
from tests.computer.pads import text_pad
from tests.firmware.build_model import mounted, profile

LINE = (
    "Types as on a computer set to German (de) on macOS; a computer that is set otherwise types "
    "otherwise."
)
HEADING = "What a computer set to German (de) on macOS would type"


def pages_of(keyboard: Keyboard) -> tuple[str, str]:
    sheet = page(sheet_of(keyboard, "pad.keys", press_data(keyboard, NO_COMPILER))).decode()
    pins = markdown(pin_table(mounted(keyboard, profile())))
    return sheet, " ".join(pins.split())


def test_they_say_which_computer_the_file_is_for() -> None:
    sheet, pins = pages_of(text_pad("ü", "de", "macos"))
    assert sheet.count(LINE) == pins.count(LINE) == 1
    assert HEADING in sheet


def test_of_a_file_that_names_none_they_say_nothing() -> None:
    for text in pages_of(changed(text_pad("ü", "de"), computer=None)):
        assert "computer set to" not in text
