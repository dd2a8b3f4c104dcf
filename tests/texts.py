"""Keyboards that a test writes down: their texts, edited and read without a mistake in them."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.model import Design, Keyboard
from matrixgen.source import read_design

GOOD = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
"""
"""A file that is sound and finished."""

Pair = tuple[str, str]
"""What stands in a text, and what is to stand there instead."""


def edited(text: str, pairs: Iterable[Pair], most: int = -1) -> str:
    """Return a text after an edit: each pair replaced, which is there, so many times at most."""
    for there, instead in pairs:
        assert there in text, there
        text = text.replace(there, instead, most)
    return text


def good_on(controller: str, row: str, *columns: str) -> str:
    """Return the sound file for another controller, or several, with these pins for its wires."""
    old, new = ("r0 on PD0", "c0 on PB0", "c1 on PB1"), (row, *columns)
    pins = ((one, f"{one[:5]} {pin}") for one, pin in zip(old, new, strict=True))
    return edited(GOOD, [("atmega32u4", controller), *pins])


def design_in(text: str) -> Design:
    """Return what a text describes, without what the rules find in it."""
    design, found = read_design("pad.keys", text)
    assert design is not None, (found, text)
    return design


def keyboard_in(text: str) -> Keyboard:
    """Return the keyboard that a text describes."""
    return design_in(text).keyboard


@functools.cache
def examined(text: str) -> Examined:
    """Return what a check makes of a text that describes a keyboard, whatever the rules find."""
    found = examine_text("pad.keys", text, Path())
    assert found.design, [one.message for one in found.findings]
    return found
