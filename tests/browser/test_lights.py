"""Lights in a page: those of the computer's locks, and those of layers, as the engine has them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from matrixgen.model import Keyboard
from matrixgen.source import read_design
from tests.browser.pages import Live, data_of

PAD = """
keyboard "Lit pad"

plate
  line CapsLock A Fn

wiring
  row    r0  CapsLock to Fn
  column c0  CapsLock
  column c1  A
  column c2  Fn
  light nav      while nav is on
  light CapsLock
  light NumLock

layer base
  Fn = hold layer nav

layer nav
  A = Left
"""


def lit_pad() -> Keyboard:
    design, findings = read_design("lit.keys", PAD)
    assert design, findings
    return design.keyboard


def test_the_page_names_the_lights_that_are_lit(live: Callable[[dict[str, Any]], Live]) -> None:
    pad = live(data_of(lit_pad))
    pad.pass_ms(20)
    assert pad.part("lights") == "NumLock"  # a computer turns Num Lock on by itself
    pad.tap("CapsLock")
    assert pad.part("lights") == "CapsLock, NumLock"
    pad.page.evaluate("board.fingers.hold('Fn', 'Fn')")
    pad.pass_ms(20)
    assert pad.part("lights") == "CapsLock, NumLock, nav"
    pad.page.evaluate("board.fingers.letGo('Fn')")
    pad.tap("CapsLock")
    assert pad.part("lights") == "NumLock"
