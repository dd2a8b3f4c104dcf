"""A keyboard with lights of all kinds: every lock, and layers that come on in every way."""

from __future__ import annotations

from matrixgen.boards import Mounted, builtin_profile
from matrixgen.model import Keyboard
from matrixgen.source import read_design

PAD = """
keyboard "Lights"
  controller CHIP
  once lasts 500 ms

plate
  line Hold Latch Once Base Tap A Back Off

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r  on P0  Hold to Off
  column c0 on P1  Hold
  column c1 on P2  Latch
  column c2 on P3  Once
  column c3 on P4  Base
  column c4 on P5  Tap
  column c5 on P6  A
  column c6 on P7  Back
  column c7 on P8  Off
LIGHTS
layer base
  Hold = hold layer one  Latch = latch layer two  Once = once layer three
  Base = change base to other  Tap = tap X, hold layer one  Off = unlatch layers
  Back = B

layer one
  A = 1

layer two
  A = 2

layer three
  A = 3

layer both while one and two are on
  A = 4

layer other
  A = O  Back = change base to base
"""

LIGHTS = (
    *("NumLock", "CapsLock to supply", "ScrollLock", "Compose to supply", "Kana"),
    *("one while one is on", "two to supply while two is on", "three while three is on"),
    *("both to supply while both is on", "other while other is on"),
    "some while one and other are on",
)


def pad(chip: str, lights: tuple[str, ...] = LIGHTS, text: str = PAD) -> Mounted:
    """The keyboard on a built-in chip, on its free pins in their order."""
    profile = builtin_profile(chip)
    assert profile is not None
    free = [pin.name for pin in profile.free_pins]
    wires = text.count(" on P")
    said = ""
    for pin, light in zip(free[wires:], lights, strict=False):
        name, _, rest = light.partition(" ")
        said += f"  light {name} on {pin} {rest}\n"
    text = text.replace("CHIP", chip).replace("LIGHTS\n", f"{said}\n")
    for number in reversed(range(wires)):
        text = text.replace(f" on P{number} ", f" on {free[number]} ")
    design, findings = read_design("lights.keys", text)
    assert design is not None, findings
    return Mounted(design.keyboard, design.mountings[0], profile)


def lights_pad() -> Keyboard:
    """The same without a controller."""
    return pad("atmega32u4").keyboard
