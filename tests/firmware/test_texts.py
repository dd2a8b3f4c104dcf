"""Texts typed by the host build, as libxkbcommon reads its reports: ten languages, three hosts.

A host asks every millisecond, every eight or every ten (HID keyboards of low and of full speed), in
either protocol, with Caps Lock on or off; the computer tells its locks after each report.
"""

from __future__ import annotations

import string
from collections.abc import Iterator

import pytest

from tests.emulators.texts import KEYS, LETTERS, TEXTS, text_keyboard
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.layouts.computer import CAPS_LOCK_LED, Computer
from tests.layouts.x11 import CAPS_LOCK
from tests.reports import any_number

POLLS_MS = (1, 8, 10)
LONGEST_MS = 6_000


@pytest.fixture(scope="module")
def keys(tmp_path_factory: pytest.TempPathFactory) -> Iterator[HostKeyboard]:
    keyboard = text_keyboard("atmega32u4").keyboard
    folder = tmp_path_factory.mktemp("texts")
    yield HostKeyboard(shared_library(keyboard, folder), host_view(keyboard))


def computer_with(layout: str, *, caps: bool) -> Computer:
    computer = Computer(layout)
    for down in ([CAPS_LOCK], []) if caps else ():
        computer.take(any_number(0, *down))
    assert computer.leds == (CAPS_LOCK_LED if caps else 0)
    return computer


def play(keys: HostKeyboard, computer: Computer, poll_ms: int) -> int:
    """Let the computer take reports until none comes for 100 ms; return how many there were."""
    taken, last_ms = 0, 0
    for now_ms in range(LONGEST_MS):
        keys.step()
        if now_ms % poll_ms == 0 and (report := keys.take()):
            computer.take(report)
            keys.leds(computer.leds)
            taken, last_ms = taken + 1, now_ms
        if now_ms > last_ms + 100:
            break
        keys.advance(1)
    return taken


def test_the_texts_have_every_letter_of_their_languages() -> None:
    for layout, text in TEXTS.items():
        there = set(text.lower())
        assert there >= {*string.ascii_lowercase, *LETTERS[layout]}, layout


@pytest.mark.few(60)
@pytest.mark.parametrize("boot", [False, True], ids=["report", "boot"])
@pytest.mark.parametrize("caps", [False, True], ids=["plain", "caps"])
@pytest.mark.parametrize("poll_ms", POLLS_MS)
@pytest.mark.parametrize("layout", TEXTS)
def test_a_text_appears_letter_by_letter(
    keys: HostKeyboard, layout: str, poll_ms: int, caps: bool, boot: bool
) -> None:
    keys.restart()
    keys.transport(open=True, boot=boot)
    computer = computer_with(layout, caps=caps)
    keys.leds(computer.leds)
    keys.close(KEYS[layout], True)
    taken = play(keys, computer, poll_ms)
    assert computer.text == TEXTS[layout]
    assert computer.is_all_up and bool(computer.leds) == caps
    assert taken >= 2 * len(TEXTS[layout]) + 4 * caps
    keys.close(KEYS[layout], False)
    assert play(keys, computer, poll_ms) == 0
    assert keys.faults() == 0
