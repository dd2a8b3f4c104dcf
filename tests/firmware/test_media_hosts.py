"""Hosts that take every media report, some or none, and lose what they were given.

What holds for any of them: in the end it knows what is down, it is never told what it knows unless
something may have been lost, and as long as it listens it hears of every change by itself.
"""

from __future__ import annotations

from random import Random

import pytest

from tests.firmware.host_build import host_view, shared_library
from tests.firmware.pads import one_media_key
from tests.firmware.test_host_usb import (
    ALLOW_WAKE_UP,
    BUS_RESET,
    BUS_RESUME,
    BUS_SUSPEND,
    SET_BOOT_PROTOCOL,
    SET_CONFIGURATION_1,
)
from tests.firmware.test_media_usb import (  # its fixtures too
    CLEAR_MEDIA_HALT,
    HALT_MEDIA,
    SET_INTERFACE_1,
    SET_REPORT_PROTOCOL,
    UNSET_CONFIGURATION,
    MediaKeyboard,
    keys,
    library,
)

__all__ = ["keys", "library"]
KINDS = (1, 2)
LOSSES = (CLEAR_MEDIA_HALT, SET_INTERFACE_1, SET_CONFIGURATION_1)


class Host:
    """A computer, and what it believes of the keys; `forgives` while it may be told again."""

    def __init__(self, keys: MediaKeyboard) -> None:
        self.keys = keys
        self.believes: dict[int, bytes] = {}
        self.told: list[bytes] = []
        self.forgives: set[int] = set(KINDS)

    def take(self) -> None:
        """Ask once for each interface."""
        self.keys.packet()
        report = self.keys.media()
        self.keys.turn()
        if report is None:
            return
        kind, bits = report[0], report[1:]
        known = self.believes.get(kind, bytes(len(bits)))
        assert bits != known or kind in self.forgives, "it was told that already"
        self.forgives.discard(kind)
        self.believes[kind] = bits
        self.told.append(report)

    def may_have_lost(self) -> None:
        self.forgives = set(KINDS)

    def is_right(self) -> None:
        """Whether it believes what GET_REPORT answers, HID 1.11 section 7.2.1."""
        for kind in KINDS:
            now = self.keys.read(bytes([0xA1, 1, kind, 1, 1, 0, 16, 0]))
            if now is not None:
                assert self.believes.get(kind, bytes(len(now) - 1)) == now[1:]


def settle(host: Host) -> None:
    """Let it listen until there is nothing more."""
    for _ in range(30):
        host.keys.c.host_advance_ms(10)
        host.keys.turn()
        host.take()
    host.is_right()


def lose(host: Host, chance: Random) -> None:
    """Let something happen after which the host may not know what it was told."""
    keys = host.keys
    host.may_have_lost()
    what = chance.randrange(5)
    if what == 0:
        keys.write(chance.choice(LOSSES))
    elif what == 1:
        keys.write(HALT_MEDIA)
        press_some(host, chance, 2, listens=False)
        keys.write(CLEAR_MEDIA_HALT)
    elif what == 2:
        keys.write(SET_BOOT_PROTOCOL)
        press_some(host, chance, 3, listens=True)
        keys.write(SET_REPORT_PROTOCOL)
    elif what == 3:
        keys.write(ALLOW_WAKE_UP)
        keys.c.host_bus(BUS_SUSPEND)
        keys.turn()
        press_some(host, chance, 2, listens=False)
        keys.c.host_bus(BUS_RESUME)
    else:
        keys.c.host_bus(BUS_RESET)
        keys.turn()
        keys.configure()
    host.may_have_lost()


def press_some(host: Host, chance: Random, count: int, *, listens: bool) -> None:
    """Press and let go of so many keys, some of them at once."""
    for _ in range(count):
        host.keys.toggle(chance.choice(sorted(host.keys.crossings)))
        pause_ms = chance.choice((0, 1, 7, 60))
        host.keys.c.host_advance_ms(pause_ms)
        host.keys.turn()
        if listens:
            host.take()
        if not listens or pause_ms == 60:  # the keyboard goes on without it, to and fro
            host.may_have_lost()


@pytest.mark.parametrize("seed", range(12))
def test_whatever_a_host_loses_it_knows_in_the_end_what_is_down(keys, seed) -> None:
    """And whatever it does not take."""
    host, chance = Host(keys), Random(seed)
    for _ in range(12):
        press_some(host, chance, chance.randrange(6), listens=chance.random() < 0.6)
        if chance.random() < 0.6:
            lose(host, chance)
        if chance.random() < 0.3:
            settle(host)
    settle(host)
    assert host.told


@pytest.mark.parametrize("seed", range(4))
def test_a_host_that_listens_hears_of_every_change_by_itself(keys, seed) -> None:
    """One bit differs from report to report, however fast the fingers are."""
    host, chance = Host(keys), Random(seed)
    names = ["Up", "Down", "Mute", "Play", "Sleep", "Wake", "A"]
    for _ in range(60):
        name = chance.choice(names)
        keys.toggle(name)
        for _ in range(chance.choice((1, 1, 8))):
            keys.c.host_advance_ms(1)
            keys.turn()
        if chance.random() < 0.8:
            host.take()
    settle(host)
    shown = dict.fromkeys(KINDS, 0)
    seen = 0
    for report in host.told:
        bits = int.from_bytes(report[1:], "little")
        assert (bits ^ shown[report[0]]).bit_count() == 1
        seen += bits > shown[report[0]]
        shown[report[0]] = bits
    assert seen > 15


@pytest.mark.parametrize("used", [(0x0C, 0xE9), (0x01, 0x81)])
def test_a_keyboard_of_one_kind_tells_only_that_again(tmp_path, used) -> None:
    keys = MediaKeyboard(
        shared_library(one_media_key(*used), tmp_path, with_usb=True),
        host_view(one_media_key(*used)),
    )
    tells_only_its_kind_again(keys)


def tells_only_its_kind_again(one: MediaKeyboard) -> None:
    one.restart()
    one.configure()
    for again in range(3):
        one.tell("K", True)
        (down,) = reports_of(one) or [b""]
        assert down[1:] == b"\x01"
        assert one.refuses(bytes([0xA1, 1, 3 - down[0], 1, 1, 0, 16, 0])), "there is no such report"
        one.tell("K", False)
        one.write(UNSET_CONFIGURATION if again == 1 else CLEAR_MEDIA_HALT)
        if again == 1:
            one.write(SET_CONFIGURATION_1)
        assert reports_of(one) == [down[:1] + b"\0"]
    assert one.faults() == 0


def reports_of(one: MediaKeyboard) -> list[bytes]:
    found = []
    for _ in range(4):
        one.turn()
        found.append(one.media())
    return [report for report in found if report is not None]
