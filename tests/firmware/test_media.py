"""What the engine promises of media keys, each thing by itself; and hid-tools reads what it sends.

HID 1.11 sections 5.6 and 8.4 (several reports, each with its number), HID Usage Tables sections 4.5
and 15. Which key code a host makes of a usage: `tests/language/test_media_usages.py`.
"""

from __future__ import annotations

import csv
import ctypes
from pathlib import Path

import pytest
from hidtools.hid import ReportDescriptor

from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.media_view import media_table
from matrixgen.model import Keyboard, Media, Press, TapHold
from matrixgen.record import changed
from matrixgen.usages import media
from tests.firmware.build_model import keyboard
from tests.firmware.host_build import COMPILERS, HostKeyboard, host_view, shared_library
from tests.firmware.pads import LEFT_SHIFT, every_media_key, media_pad, one_media_key
from tests.reports import any_number

DEBOUNCE_MS = 5
EVDEV = Path(__file__).parents[1] / "language" / "data" / "consumer_to_evdev.csv"


def descriptor_of(keys: HostKeyboard, length: int) -> ReportDescriptor:
    """The report descriptor as it lies in the compiled library."""
    stored = (ctypes.c_uint8 * length).in_dll(keys.c, "media_descriptor")
    return ReportDescriptor.from_bytes(list(stored))


def decoded(descriptor: ReportDescriptor, report: bytes) -> set[tuple[int, int]]:
    """The pages and usages that hid-tools finds down in a report."""
    fields = descriptor.get(report[0], len(report))
    assert fields is not None, f"no such report: {report.hex()}"
    assert fields.bitsize == 8 * len(report)
    down = [field for field in fields if not field.is_const and field.usage_name != "Report ID"]
    found = [one.usage for one in down if one.get_values(list(report))[0]]
    return {(usage >> 16, usage & 0xFFFF) for usage in found}


class MediaPad(HostKeyboard):
    def __init__(self, library: Path, view: FirmwareView) -> None:
        super().__init__(library, view)
        self.descriptor = descriptor_of(self, view.media.descriptor_bytes)

    def press(self, *names: str) -> list[bytes | None]:
        """Close the keys one after the other; what the host gets of media keys."""
        return [self._moved(name, True) for name in names]

    def release(self, *names: str) -> list[bytes | None]:
        return [self._moved(name, False) for name in names]

    def _moved(self, name: str, closed: bool) -> bytes | None:
        self.close(name, closed)
        self.step()
        if not closed:
            self.advance(DEBOUNCE_MS + 1)
            self.step()
        return self.take_media()

    def down(self, report: bytes | None) -> set[str]:
        """The words of what hid-tools finds down in a report."""
        assert report is not None
        return {media.media_word(*one) for one in decoded(self.descriptor, report)}


def built(board: Keyboard, folder: Path, compiler: str = "gcc") -> MediaPad:
    return MediaPad(shared_library(board, folder, compiler), host_view(board))


@pytest.fixture(scope="module", params=COMPILERS)
def library(request, tmp_path_factory):
    return built(media_pad(), tmp_path_factory.mktemp(request.param), request.param)


@pytest.fixture
def pad(library):
    library.restart()
    yield library
    assert library.faults() == 0


# --- the reports ---


def test_hid_tools_reads_a_bit_for_each_usage_that_the_file_has_and_no_other(pad) -> None:
    reports = pad.descriptor.input_reports
    assert not pad.descriptor.output_reports and not pad.descriptor.feature_reports
    usages = {
        number: [f.usage & 0xFFFF for f in report if not f.is_const and f.usage_name != "Report ID"]
        for number, report in reports.items()
    }
    consumer = [0x6F, 0x70, 0xB5, 0xB6, 0xB7, 0xCD, 0xE2, 0xE9, 0xEA, 0x18A, 0x192]
    assert usages == {1: consumer, 2: [0x82, 0x83]}
    assert {number: report.bitsize for number, report in reports.items()} == {1: 24, 2: 16}
    assert [one.application for one in reports.values()] == [0x0C0001, 0x010080]


def test_each_key_sends_what_its_layer_gives_it_and_hid_tools_says_so(pad) -> None:
    words = {
        "Up": ("VolumeUp", "BrightnessUp"),
        "Down": ("VolumeDown", "BrightnessDown"),
        "Mute": ("Mute", "NextTrack"),
        "Play": ("PlayPause", "PreviousTrack"),
        "Up.2": ("VolumeUp", "StopMedia"),
        "Sleep": ("Sleep", "Email"),
        "Wake": ("WakeUp", "Calculator"),
    }
    for key, (base, more) in words.items():
        assert pad.down(*pad.press(key)) == {base}
        assert pad.down(*pad.release(key)) == set()
        pad.press("More")
        assert pad.down(*pad.press(key)) == {more}
        pad.release("More")
        assert pad.down(*pad.release(key)) == set()
    assert pad.take() is None


def test_keys_down_together_are_together_in_their_report_and_each_kind_has_its_own(pad) -> None:
    reports = pad.press("Up", "Sleep", "Mute", "Wake")
    assert [pad.down(report) for report in reports] == [
        {"VolumeUp"},
        {"Sleep"},
        {"VolumeUp", "Mute"},
        {"Sleep", "WakeUp"},
    ]
    reports = pad.release("Sleep", "Up", "Wake", "Mute")
    assert [pad.down(report) for report in reports] == [{"WakeUp"}, {"Mute"}, set(), set()]


def test_a_usage_that_two_keys_hold_goes_up_with_the_last_one(pad) -> None:
    assert pad.down(*pad.press("Up")) == {"VolumeUp"}
    assert pad.press("Up.2") == [None]
    assert pad.release("Up") == [None]
    assert pad.down(*pad.release("Up.2")) == set()


def test_a_usage_of_another_layer_s_key_is_the_same_one(pad) -> None:
    pad.press("Up", "More")
    assert pad.press("A") == [None], "volume up, there"
    assert pad.release("Up", "More") == [None, None]
    assert pad.down(*pad.release("A")) == set()


# --- one change to a report, in order ---


def test_the_next_event_waits_until_a_media_report_was_taken(pad) -> None:
    for key in ("Up", "Down", "Shift"):  # in the order of the scan
        pad.close(key, True)
    for _ in range(3):
        pad.step()
    assert pad.down(pad.take_media()) == {"VolumeUp"}
    assert (pad.take_media(), pad.take()) == (None, None)
    pad.step()
    assert pad.down(pad.take_media()) == {"VolumeUp", "VolumeDown"}
    assert pad.take() is None
    pad.step()
    assert (pad.take_media(), pad.take()) == (None, any_number(LEFT_SHIFT))


def test_press_and_release_in_one_breath_are_two_reports(pad) -> None:
    pad.close("Play", True)
    pad.step()
    pad.close("Play", False)
    for _ in range(4):
        pad.advance(DEBOUNCE_MS)
        pad.step()
    assert pad.down(pad.take_media()) == {"PlayPause"}
    pad.step()
    assert pad.down(pad.take_media()) == set()


# --- hosts that do not listen ---


def test_the_boot_protocol_is_silent(pad) -> None:
    pad.press("Up", "Sleep")
    pad.release("Up", "Sleep")
    pad.transport(open=True, boot=True)
    assert pad.press("Up", "Sleep") == [None, None]
    assert pad.release("Up", "Sleep") == [None, None]
    pad.press("A")
    assert pad.take() is not None
    pad.transport(open=True, boot=False)
    for _ in range(3):
        pad.step()
        pad.take()
        assert pad.take_media() is None, "nothing is down that the host had not heard of"


def test_what_is_down_is_told_when_the_boot_protocol_ends(pad) -> None:
    pad.press("Up")
    pad.transport(open=True, boot=True)
    assert pad.release("Up") == [None]
    assert pad.press("Sleep") == [None]
    pad.transport(open=True, boot=False)
    reports = []
    for _ in range(3):
        pad.step()
        reports.append(pad.take_media())
    assert [pad.down(report) for report in reports[:2]] == [set(), {"Sleep"}]
    assert reports[2] is None


@pytest.mark.parametrize("still_down", [True, False])
def test_after_a_host_slept_it_is_told_what_is_down(pad, still_down: bool) -> None:
    assert pad.down(*pad.press("Mute")) == {"Mute"}
    pad.transport(open=False, boot=False)
    pad.step()
    if not still_down:
        assert pad.release("Mute") == [None]
    pad.transport(open=True, boot=False)
    pad.step()
    assert pad.down(pad.take_media()) == ({"Mute"} if still_down else set())
    pad.step()
    assert pad.take_media() is None


def test_nothing_is_told_to_a_host_that_heard_of_nothing(pad) -> None:
    pad.transport(open=False, boot=False)
    assert pad.press("Mute") == [None]
    assert pad.release("Mute") == [None]
    pad.transport(open=True, boot=False)
    pad.step()
    assert pad.take_media() is None


# --- keyboards of every size ---


def test_a_keyboard_with_every_media_key_sends_each_as_the_kernel_names_it(tmp_path) -> None:
    """The usage that hid-tools decodes is the one whose key code the kernel's table has."""
    with EVDEV.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    codes = {(0x0C, int(row["usage_hex"], 16)): row["evdev_name"] for row in rows}
    pad = built(every_media_key(), tmp_path)
    for one in media.media_usages():
        (report,) = pad.press(media.media_word(*one))
        assert decoded(pad.descriptor, report) == {one}
        assert one[0] == 0x01 or codes[one].startswith("KEY_")
        pad.release(media.media_word(*one))
    assert host_view(every_media_key()).answer_bits == 16, "its descriptor is a long one"


@pytest.mark.parametrize("used", [[(0x0C, 0xE9)], [(0x01, 0x81)]])
def test_a_keyboard_with_one_kind_has_no_report_of_the_other(used, tmp_path) -> None:
    pad = built(one_media_key(*used[0]), tmp_path)
    assert decoded(pad.descriptor, *pad.press("K")) == set(used)
    assert len(pad.descriptor.input_reports) == 1
    pad.transport(open=False, boot=False)
    pad.step()
    pad.transport(open=True, boot=False)
    pad.step()
    assert decoded(pad.descriptor, pad.take_media()) == set(used)
    pad.step()
    assert pad.take_media() is None


def test_a_media_key_within_another_action_is_counted_too() -> None:
    """Whatever contains it: `with_parts` finds it."""
    inner = TapHold(Media(0x0C, 0xE2), Press(0, 1))
    board = keyboard([["A", "B"]], {"base": {"A": Press(4), "B": Press(5)}})
    (base,) = board.layers
    cells = (changed(base.cells[0], action=inner), *base.cells[1:])
    (report,) = media_table(changed(board, layers=(changed(base, cells=cells),))).reports
    assert report.keys == (Media(0x0C, 0xE2),)


def test_a_keyboard_without_media_keys_has_nothing_of_them() -> None:
    board = keyboard([["A"]], {"base": {"A": Press(4)}})
    tree = firmware_tree(host_view(board))
    texts = {name: text for name, text in tree.items() if not name.startswith("port/")}
    assert [name for name, text in texts.items() if b"media" in text.lower()] == []
