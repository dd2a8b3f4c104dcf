"""The keyboard's input report, as a test expects it: a boot report, then a bit for each usage.

HID 1.11 appendix B.1 is the boot report; that it comes first in every report is for set-up screens
that read eight bytes and never ask for the boot protocol.
"""

from __future__ import annotations

BOOT_BYTES, USAGE_BYTES = 8, 28
REPORT_BYTES = BOOT_BYTES + USAGE_BYTES
ERROR_ROLL_OVER = 0x01
FIRST_USAGE, PLAIN_USAGES = 0x04, 0xE0 - 0x04
"""Usages that are neither errors nor modifiers: the first, and how many."""


def boot_report(modifiers: int, *usages: int) -> bytes:
    keys = sorted(usages) if len(usages) <= 6 else [ERROR_ROLL_OVER] * 6
    return bytes([modifiers, 0, *keys]).ljust(BOOT_BYTES, b"\0")


def any_number(modifiers: int, *usages: int) -> bytes:
    bits = sum(1 << usage for usage in usages)
    return boot_report(modifiers, *usages) + bits.to_bytes(USAGE_BYTES, "little")


def first_usages(report: bytes) -> set[int]:
    """What a set-up screen sees down, which reads eight bytes and no descriptor."""
    modifiers, reserved, *keys = report[:BOOT_BYTES]
    assert reserved == 0
    return {0xE0 + bit for bit in range(8) if modifiers >> bit & 1} | set(keys) - {0}


NOTHING_DOWN = any_number(0)
