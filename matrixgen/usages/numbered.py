"""Usages by their numbers: the pages that a keyboard's reports have, and how far each goes.

Source: USB HID Usage Tables 1.12, sections 10 and 15, and section 4.5 for the system controls of
the Generic Desktop Page. The consumer page has three digits there; in later editions it ends at
0x514 (as hid-tools has it).
"""

from __future__ import annotations

from matrixgen.record import Record

GENERIC_DESKTOP, KEYBOARD, CONSUMER = 0x01, 0x07, 0x0C


class UsagePage(Record):
    """A page that some report has: what it is called, the first and the last usage sent."""

    name: str
    first: int
    last: int


PAGES = {
    GENERIC_DESKTOP: UsagePage("system controls", 0x81, 0xB7),
    KEYBOARD: UsagePage("keyboard page", 0x04, 0xE7),
    CONSUMER: UsagePage("consumer page", 0x001, 0xFFF),
}
"""Those pages by their numbers. What is below 0x04 on the keyboard page are errors, not keys."""


def phrase_of_usage(page: int, usage: int) -> str:
    """Return the phrase of the language for a usage that has no word: `usage 0x0C 0x1B0`."""
    return f"usage 0x{page:02X} {digits(page, usage)}"


def digits(page: int, usage: int) -> str:
    """Return a usage's number as the tables of its page have it."""
    return f"0x{usage:03X}" if page == CONSUMER else f"0x{usage:02X}"
