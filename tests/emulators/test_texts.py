"""Keys that type in turn, on the emulated chips: what appears, and what comes between.

The computer is libxkbcommon; it tells its locks by SET_REPORT after each report, as hosts do.
"""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from matrixgen.families import CompilerKind
from matrixgen.model import Keyboard
from tests.amounts import IS_LONG
from tests.emulators.at_a_host import at_a_host
from tests.emulators.avr.board import AvrBoard
from tests.emulators.images import image_of
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.texts import (
    KEYS,
    LONG_WAIT,
    MANY,
    PLAIN,
    SECOND,
    SHIFT,
    TAP,
    TEXTS,
    text_keyboard,
)
from tests.emulators.usb_host import UsbHost
from tests.layouts.computer import CAPS_LOCK_LED, Computer
from tests.layouts.x11 import CAPS_LOCK
from tests.reports import BOOT_BYTES, REPORT_BYTES, any_number, boot_report

pytestmark = pytest.mark.chips_in_turn
CHIPS = ("atmega32u4", "at90usb162", "rp2040")
COMPILERS: tuple[CompilerKind, ...] = ("gcc", "clang")
POLLS_MS = (1, 8, 10)
QUIET_MS = 100
DEBOUNCE_MS = 8


@dataclass
class Desk:
    """A keyboard on a chip, plugged into a computer, and somebody's fingers."""

    chip: AvrBoard | Rp2040Board
    host: UsbHost
    keyboard: Keyboard
    computer: Computer
    reports: list[bytes]
    told: int = 0

    def sit_down(self, layout: str, *, caps: bool = False, boot: bool = False) -> None:
        """Begin anew at a computer with a layout."""
        self.computer, self.reports = Computer(layout), []
        for down in ([CAPS_LOCK], []) if caps else ():
            self.computer.take(any_number(0, *down))
        self.host.set_protocol(boot=boot)
        self._tell()

    def _tell(self) -> None:
        if self.computer.leds != self.told:
            self.told = self.computer.leds
            self.host.set_leds(self.told)

    def take(self, polls: int, poll_ms: int = 1) -> int:
        """Let the computer ask so often; return how many reports it got."""
        before = len(self.reports)
        for _ in range(polls):
            self.chip.wait(poll_ms)
            if (report := self.chip.in_(1)) is not None:
                self.reports.append(report)
                self.computer.take(report)
                self._tell()
        return len(self.reports) - before

    def take_all(self, poll_ms: int = 1) -> None:
        """Let the computer ask until there is nothing for a while."""
        while self.take(QUIET_MS // poll_ms, poll_ms):
            pass

    def tap(self, key: str) -> None:
        """Press and release, and hear nothing of it."""
        self.chip.close_key(key)
        self.chip.wait(3)
        self.chip.open_key(key)
        self.chip.wait(DEBOUNCE_MS)

    def tap_and_take(self, key: str) -> None:
        """Press and release while the computer asks each millisecond."""
        self.chip.close_key(key)
        self.take(4)
        self.chip.open_key(key)
        self.take(DEBOUNCE_MS)


@pytest.fixture(
    scope="module",
    params=[(chip, kind) for chip in CHIPS for kind in COMPILERS],
    ids="-".join,
)
def plugged(request: pytest.FixtureRequest) -> Iterator[Desk]:
    chip, kind = request.param
    mounted = text_keyboard(chip)
    with at_a_host(image_of(mounted, kind), mounted) as (running, host, _):
        yield Desk(running, host, mounted.keyboard, Computer("de"), [])


@pytest.fixture
def desk(plugged: Desk) -> Iterator[Desk]:
    yield plugged
    for row in range(4):
        for column in range(4):
            plugged.chip.open_key(f"K{row}{column}")
    plugged.chip.wait(DEBOUNCE_MS)
    plugged.take_all()
    assert plugged.computer.is_all_up


@pytest.mark.parametrize("kind", COMPILERS)
@pytest.mark.parametrize("chip", CHIPS)
def test_a_keyboard_that_knows_no_time_is_built(chip: str, kind: CompilerKind) -> None:
    """By both compilers: its events are of three bytes, which one may copy in another way."""
    small = image_of(text_keyboard(chip, with_taps=False), kind)
    assert small.flash_used < image_of(text_keyboard(chip), kind).flash_used


@functools.cache
def trials() -> list[tuple[str, int, bool, bool]]:
    """Return each language with a host of its own; in the long run with every one."""
    every = list(itertools.product(POLLS_MS, (True, False), (False, True)))
    names = list(TEXTS)
    return [
        (name, *host)
        for place, name in enumerate(names)
        for host in (every if IS_LONG else (every[place * 5 % len(every)],))
    ]


def test_hosts_of_all_kinds_are_tried() -> None:
    tried = [host for _, *host in trials()]
    for place, values in enumerate((POLLS_MS, (False, True), (False, True))):
        assert {host[place] for host in tried} == set(values)


@pytest.mark.few(4)
@pytest.mark.parametrize(("layout", "poll_ms", "caps", "boot"), trials())
def test_a_text_appears_letter_by_letter(
    desk: Desk, layout: str, poll_ms: int, caps: bool, boot: bool
) -> None:
    desk.sit_down(layout, caps=caps, boot=boot)
    desk.tap(KEYS[layout])
    desk.take_all(poll_ms)
    assert desk.computer.text == TEXTS[layout]
    assert {len(report) for report in desk.reports} == {BOOT_BYTES if boot else REPORT_BYTES}
    assert bool(desk.computer.leds) == caps


def test_several_keys_and_a_wait(desk: Desk) -> None:
    desk.sit_down("de")
    desk.chip.close_key(MANY)
    first = desk.take(40)
    assert (first, desk.computer.shortcuts, desk.computer.text) == (2, 1, "")
    desk.take_all()
    assert desk.computer.text == "Öl" and len(desk.reports) == 2 + 4 + 2


def test_pressed_again_it_stops_in_the_middle_of_a_wait(desk: Desk) -> None:
    desk.sit_down("de")
    desk.tap_and_take(LONG_WAIT)
    desk.take(50)
    assert desk.computer.shortcuts == 1
    desk.tap_and_take(LONG_WAIT)
    desk.tap_and_take(SECOND)
    desk.take(10)
    assert (desk.computer.shortcuts, desk.computer.text) == (1, "b")


def test_a_tap_types_a_text_and_its_hold_none(desk: Desk) -> None:
    desk.sit_down("de", caps=True)
    desk.tap(TAP)
    desk.take_all()
    assert desk.computer.text == "Äpfel"
    desk.chip.close_key(TAP)
    desk.take(300)
    assert desk.computer.text == "Äpfel" and desk.reports[-1] == any_number(0x01)


def test_pressed_again_it_stops_and_what_waits_comes(desk: Desk) -> None:
    desk.sit_down("de", caps=True)
    desk.tap(KEYS["de"])
    desk.take(60)
    desk.tap(PLAIN)
    desk.tap(KEYS["de"])
    desk.take_all()
    typed, last = desk.computer.text[:-1], desk.computer.text[-1]
    assert TEXTS["de"].startswith(typed) and 3 < len(typed) < 20
    assert last == "A" and desk.computer.leds == CAPS_LOCK_LED


def test_modifiers_are_up_meanwhile_and_come_back(desk: Desk) -> None:
    desk.sit_down("pt")
    desk.chip.close_key(SHIFT)
    desk.take(3)
    desk.tap(KEYS["pt"])
    desk.take_all()
    assert desk.computer.text == TEXTS["pt"] and desk.reports[-1] == any_number(0x02)


def test_a_seventh_key_meanwhile_stops_it_and_none_is_lost(desk: Desk) -> None:
    """Faster than any fingers: a key each 12 ms."""
    desk.sit_down("hu", caps=True)
    desk.tap(KEYS["hu"])
    desk.take(30)
    for key in (PLAIN, SECOND) * 3:
        desk.tap_and_take(key)
    desk.take(40)
    typing = len(desk.computer.text)
    desk.take(8)
    assert len(desk.computer.text) > typing, "six keys stop it"
    for key in (PLAIN, SECOND) * 2:
        desk.tap_and_take(key)
    desk.take_all()
    text = desk.computer.text
    assert text.endswith("AB" * 5) and TEXTS["hu"].startswith(text[:-10]) and len(text) < 90
    assert desk.computer.leds == CAPS_LOCK_LED


def test_another_protocol_meanwhile_neither_loses_nor_doubles_a_letter(desk: Desk) -> None:
    for boot in (True, False):
        desk.sit_down("cz", boot=not boot)
        desk.tap(KEYS["cz"])
        for polls in (37, 101, 53):
            desk.take(polls)
            desk.host.set_protocol(boot=boot)
            desk.take(polls)
            desk.host.set_protocol(boot=not boot)
        desk.take_all()
        assert desk.computer.text == TEXTS["cz"]
        assert {len(report) for report in desk.reports} == {BOOT_BYTES, REPORT_BYTES}


def test_a_halt_meanwhile_loses_no_letter(desk: Desk) -> None:
    """A report that the endpoint had is given again: USB 2.0 section 9.4.5."""
    desk.sit_down("pl")
    desk.tap(KEYS["pl"])
    for polls in (31, 32, 33, 34, 35):
        desk.take(polls)
        desk.host.write(0x02, 3, 0, 0x81)
        desk.chip.wait(20)
        desk.host.write(0x02, 1, 0, 0x81)
    desk.take_all()
    assert desk.computer.text == TEXTS["pl"]


@pytest.mark.parametrize("polls", range(40, 44))
def test_what_is_left_when_the_bus_sleeps_is_lost_and_no_key_sticks(desk: Desk, polls: int) -> None:
    desk.sit_down("se")
    desk.tap(KEYS["se"])
    desk.take(polls)
    desk.chip.suspend()
    desk.chip.wait(30)
    desk.chip.resume()
    desk.take_all()
    typed = desk.computer.text
    assert TEXTS["se"].startswith(typed) and 3 < len(typed) < 10
    assert desk.computer.is_all_up
    desk.tap(SECOND)
    desk.take_all()
    assert desk.computer.text == typed + "b"


@pytest.mark.few(6)
@pytest.mark.parametrize("polls", range(40, 44))
def test_what_is_left_at_a_reset_of_the_bus_is_lost_and_no_key_sticks(
    desk: Desk, polls: int
) -> None:
    desk.sit_down("ro")
    desk.tap(KEYS["ro"])
    desk.take(polls)
    desk.computer = Computer("ro")  # which forgets what was down
    desk.host.enumerate()
    desk.host.set_idle(0)
    desk.told = 0
    desk.take_all()
    assert desk.computer.text == ""
    desk.tap(KEYS["ro"])
    desk.take_all()
    assert desk.computer.text == TEXTS["ro"]


def test_the_host_may_ask_for_the_report_meanwhile(desk: Desk) -> None:
    """GET_REPORT, HID 1.11 section 7.2.1, gives what is down and changes nothing."""
    desk.sit_down("tr", boot=True)
    desk.tap(KEYS["tr"])
    seen = set()
    for _ in range(60):
        desk.take(1)
        seen.add(desk.host.read(0xA1, 1, 0x0100, 0, BOOT_BYTES))
    desk.take_all()
    assert desk.computer.text == TEXTS["tr"] and boot_report(0) in seen and len(seen) > 4
