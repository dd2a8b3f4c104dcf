"""A changed base outlasts power, whenever that fails and whatever lay in the memory before."""

from __future__ import annotations

import pytest

from tests.firmware.host_build import HostKeyboard
from tests.firmware.pads import kept_pad
from tests.reports import any_number

KEYS = {"Base": 0x04, "Two": 0x05, "Three": 0x06}
"""The key that changes the base, and what J sends on it."""
EMPTY, BASE_AT, MARK_AT = 0xFF, 0, 1
WRITE_MS = 4


@pytest.fixture
def kept(started):
    keyboard = started(kept_pad)
    yield keyboard
    assert keyboard.faults() == 0


def run(kept: HostKeyboard, milliseconds: int) -> None:
    for _ in range(milliseconds):
        kept.step()
        kept.step()
        kept.advance(1)


def tap(kept: HostKeyboard, key: str) -> list[bytes]:
    """Press a key for a millisecond, and return the reports."""
    reports = []
    for down in (True, False):
        kept.close(key, down)
        for _ in range(1 if down else 8):
            run(kept, 1)
            reports += [report for report in [kept.take()] if report]
    return reports


def plugged_in_again(kept: HostKeyboard) -> bytes:
    """Start with what the memory has, and return what J sends then."""
    kept.c.keyboard_start()
    return tap(kept, "J")[0]


def memory(kept: HostKeyboard) -> tuple[int, int]:
    read = kept.c.host_kept
    return read(BASE_AT) & 0xFF, read(MARK_AT) & 0xFF


def fill(kept: HostKeyboard, base: int, mark: int) -> None:
    kept.c.host_keep(BASE_AT, base)
    kept.c.host_keep(MARK_AT, mark)


@pytest.mark.parametrize(("key", "usage"), KEYS.items())
def test_the_base_that_was_last_is_there_again(kept, key, usage) -> None:
    for other in KEYS:
        tap(kept, other)
    tap(kept, key)
    run(kept, 2 * WRITE_MS)
    assert plugged_in_again(kept) == any_number(0, usage)
    assert plugged_in_again(kept) == any_number(0, usage)


def test_an_empty_memory_is_of_the_base_and_stays_empty_until_a_key_changes_it(kept) -> None:
    assert plugged_in_again(kept) == any_number(0, KEYS["Base"])
    assert memory(kept) == (EMPTY, EMPTY)
    tap(kept, "Fn")
    assert memory(kept) == (EMPTY, EMPTY)


def test_power_that_fails_between_the_two_bytes_leaves_what_is_not_believed(kept) -> None:
    """The first byte is written in the scan after the press, the other once that is done."""
    kept.close("Two", True)
    run(kept, WRITE_MS)
    kept.close("Two", False)
    assert (memory(kept)[0] == EMPTY) != (memory(kept)[1] == EMPTY)
    assert plugged_in_again(kept) == any_number(0, KEYS["Base"])


def test_no_single_byte_that_differs_is_believed(kept) -> None:
    tap(kept, "Two")
    run(kept, 2 * WRITE_MS)
    base, mark = memory(kept)
    assert (base, mark) == (1, mark) and mark not in (EMPTY, 0)
    for other in range(0x100):
        if other != mark:
            fill(kept, base, other)
            assert plugged_in_again(kept) == any_number(0, KEYS["Base"])
        if other != base:
            fill(kept, other, mark)
            assert plugged_in_again(kept) == any_number(0, KEYS["Base"])


def test_no_pair_of_bytes_leads_to_a_layer_that_is_no_base(kept) -> None:
    sent = set()
    for base in range(0x100):
        for key in ("Base", "Two", "Three"):
            tap(kept, key)
        run(kept, 2 * WRITE_MS)
        _, mark = memory(kept)  # of base 2
        fill(kept, base, mark ^ 2 ^ base)
        sent.add(plugged_in_again(kept))
    assert sent == {any_number(0, usage) for usage in KEYS.values()}


def test_a_base_that_changes_while_it_is_written_is_kept_as_it_is_in_the_end(kept) -> None:
    kept.close("Two", True)
    run(kept, 1)
    kept.close("Three", True)
    run(kept, WRITE_MS + 1)
    kept.close("Base", True)
    run(kept, 1)
    for key in KEYS:
        kept.close(key, False)
    run(kept, 4 * WRITE_MS)
    assert plugged_in_again(kept) == any_number(0, KEYS["Base"])
    assert memory(kept)[0] == 0


def test_the_engine_does_not_wait_for_a_byte_to_be_written(kept) -> None:
    kept.close("Two", True)
    kept.step()
    kept.close("J", True)
    kept.step()
    assert kept.take() == any_number(0, KEYS["Two"])
