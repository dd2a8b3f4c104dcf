"""Kinds of edits of a keyboard, each with its truth: what somebody at the bench has to do.

An edit is a list of texts and what stands there instead. Its truth is the most work that it asks
for, and whether the image is another one. The truth is stated by hand, from what a joint, a wire,
a diode or a plate is; whether images differ is measured by `test_edit_table.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from matrixgen.model.work import Work
from tests.texts import Pair, edited

PAD = """\
# A pad.
keyboard "Pad"
  controller atmega32u4
  debounce 5 ms
  maker "Me"
  usb 1209:0002
  boot-loader hold Q Y

plate
  line Q  ~1  W E T Y
  line A S D  ~1  G H
  cluster thumb at 1, 3 turned 10
  line Z X
  hole at 7, 3
  hole at 7, 5
  keep clear 8, 0, 1, 2
  controller at 10, 2 turned 90
  outline margin 8 mm
  stabiliser none A W
  thickness 4 mm
  light CapsLock at 8.5, 4
  light lamp at 8.5, 5

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  without diode Z
  settle 5 us
  row r0 on PD0 wire red  Q to Y
  row r1 on PD1  A to H
  row r2 on PD4  Z X
  column c0 on PB0 wire blue  Q A Z
  column c1 on PB1  W S X
  column c2 on PB2  E D
  column c3 on PB3  T G
  column c4 on PB4  Y H
  light CapsLock on PC6
  light lamp on PC7 green 2 V to supply while both is on

actions
  copy = Ctrl+C
  spare = Ctrl+V
  erase = Backspace, with Shift Delete

layer base
  A = tap A, hold Shift, after 180 ms
  S = hold layer nav
  D = hold layer sym
  X = copy
  Q = first F3, second F4, within 250 ms
  T = first once layer nav, second hold layer sym, third F8
  E = F5, with Shift F6, with Ctrl+Alt F7
  Z = erase

layer nav
  Q = 1  W = 2
  E = latch layer sym

layer sym
  Q = F1  T = once Shift
  Y = VolumeUp

layer both while nav and sym are on
  G = F9
"""


class Edit(NamedTuple):
    """The most work, whether the image is another one, and what stands instead of what.

    `before` is what stands instead on both sides: the pad that the edit is of.
    """

    work: Work
    is_other: bool
    replaced: tuple[Pair, ...]
    before: Sequence[Pair]


def cosmetic(*replaced: Pair, before: Sequence[Pair] = ()) -> Edit:
    return Edit("cosmetic", False, replaced, before)


def reflash(*replaced: Pair, before: Sequence[Pair] = ()) -> Edit:
    return Edit("reflash", True, replaced, before)


def solder(*replaced: Pair, before: Sequence[Pair] = ()) -> Edit:
    return Edit("solder", False, replaced, before)


def solder_and_reflash(*replaced: Pair, before: Sequence[Pair] = ()) -> Edit:
    return Edit("solder", True, replaced, before)


HALF = """\
  line Q  ~1  W E T Y
  line A S D  ~1  G H
"""


def moved(x: float, y: float) -> list[Pair]:
    """All that is on the plate, shifted."""
    return [
        (HALF, f"  line in {x:g} down {y:g} Q  ~1  W E T Y\n  line in {x:g} A S D  ~1  G H\n"),
        ("at 1, 3 turned", f"at {1 + x:g}, {3 + y:g} turned"),
        ("hole at 7, 3", f"hole at {7 + x:g}, {3 + y:g}"),
        ("hole at 7, 5", f"hole at {7 + x:g}, {5 + y:g}"),
        ("clear 8, 0,", f"clear {8 + x:g}, {y:g},"),
        ("controller at 10, 2", f"controller at {10 + x:g}, {2 + y:g}"),
        ("CapsLock at 8.5, 4", f"CapsLock at {8.5 + x:g}, {4 + y:g}"),
        ("lamp at 8.5, 5", f"lamp at {8.5 + x:g}, {5 + y:g}"),
    ]


AXES = [
    ("drive columns, sense rows", "drive rows, sense columns"),
    ("band toward columns", "band toward rows"),
    *((f"  row r{n} ", f"  column r{n} ") for n in range(3)),
    *((f"  column c{n} ", f"  row c{n} ") for n in range(5)),
]
"""The same circuit, in which rows are called columns."""


ACTIONS = PAD[PAD.index("actions\n") : PAD.index("layer base\n")]
ERASES = "Z = Backspace, with Shift Delete"
"""The named action of the pad, written out at its key."""


def cell(old: str, new: str) -> Edit:
    return reflash((old, new))


SPELLING: dict[str, Edit] = {
    "a comment": cosmetic(("# A pad.", "# My pad.")),
    "a comment more": cosmetic(("layer nav\n", "layer nav  # arrows\n")),
    "blanks": cosmetic(("  line A S D", "  line   A  S  D")),
    "tabs": cosmetic(("  maker", "\tmaker")),
    "an empty line": cosmetic(("wiring\n", "wiring\n\n")),
    "a run written out": cosmetic(("Q to Y", "Q W E T Y")),
    "a run instead of names": cosmetic(("on PD4  Z X", "on PD4  Z to X")),
    "an alias of a usage": cosmetic(("tap A, hold Shift", "tap A, hold LeftShift")),
    "words of one modifier": cosmetic(("Ctrl+C", "LeftCtrl+C")),
    "a picture for a list": cosmetic(("  G = F9\n", "  ~ ~ ~ ~ ~\n  ~ ~ ~ F9 ~\n  ~ ~\n")),
    "entries in one line": cosmetic(("  Q = F1  T", "  Q = F1\n  T")),
    "blocks in another order": cosmetic((ACTIONS, ""), ("plate\n", f"{ACTIONS}plate\n")),
    "settings in another order": cosmetic(
        ("  debounce 5 ms\n", ""), ("  boot-loader", "  debounce 5 ms\n  boot-loader")
    ),
    "cells in another order": cosmetic(("Q = 1  W = 2", "W = 2  Q = 1")),
    "a statement that goes on": cosmetic(
        ("on PD0 wire red  Q to Y", "on PD0 wire red Q W\n    and E to Y")
    ),
    "what a layer needs, turned round": cosmetic(("nav and sym", "sym and nav")),
    "the usual decision written out": cosmetic(
        ("hold Shift, after 180 ms", "hold Shift, by release, after 180 ms")
    ),
}

SETTINGS: dict[str, Edit] = {
    "the keyboard's name": reflash(('"Pad"', '"Pad 2"')),
    "the maker": reflash(('"Me"', '"You"')),
    "no maker": reflash(('  maker "Me"\n', "")),
    "the default maker instead": reflash(('"Me"', '"Made by hand"')),
    "the product id": reflash(("1209:0002", "1209:0003")),
    "the vendor id": reflash(("1209:0002", "1210:0002")),
    "ids in capitals": cosmetic(("1209:0002", "1209:0002 ")),
    "no ids": reflash(("  usb 1209:0002\n", "")),
    "the default ids written out": cosmetic(
        ("  maker", "  usb 1209:0001\n  maker"), before=[("  usb 1209:0002\n", "")]
    ),
    "the default maker written out": cosmetic(
        ("  usb", '  maker "Made by hand"\n  usb'), before=[('  maker "Me"\n', "")]
    ),
    "the debounce time": reflash(("debounce 5", "debounce 8")),
    "the default debounce left out": cosmetic(("  debounce 5 ms\n", "")),
    "a debounce rounded up to the same": cosmetic(("debounce 5", "debounce 4.5")),
    "a press that waits": reflash(("5 ms", "5 ms, press 2 ms")),
    "a press of no time": cosmetic(("5 ms", "5 ms, press 0 ms")),
    "how long once lasts": reflash(("  maker", "  once lasts 900 ms\n  maker")),
    "how long once lasts, which no key asks for": cosmetic(
        ("  maker", "  once lasts 900 ms\n  maker"),
        before=[("first once layer nav", "first F9"), ("T = once Shift", "T = F10")],
    ),
    "a base to remember that nothing changes": cosmetic(("  maker", "  remember base\n  maker")),
    "other keys for the boot loader": reflash(("hold Q Y", "hold Q H")),
    "one key more for the boot loader": reflash(("hold Q Y", "hold Q Y A")),
    "keys for the boot loader, turned round": cosmetic(("hold Q Y", "hold Y Q")),
    "no keys for the boot loader": reflash(("  boot-loader hold Q Y\n", "")),
    "a double reset": reflash(("  maker", "  boot-loader double reset\n  maker")),
    "an allowance": cosmetic(("  maker", "  allow unreachable-layer\n  maker")),
    "the default settling time": reflash(("settle 5", "settle 7")),
    "a settling time rounded up to the same": cosmetic(("settle 5", "settle 4.5")),
}

GEOMETRY: dict[str, Edit] = {
    "everything to the right": cosmetic(*moved(1, 0)),
    "everything down": cosmetic(*moved(0, 3)),
    "everything up and to the left": cosmetic(*moved(-0.25, -1)),
    "all keys, against the holes": solder(*moved(1, 0)[:2]),
    "all holes, against the keys": solder(*moved(1, 0)[2:4]),
    "the lines, against the cluster": solder(*moved(0.5, 0)[:1]),
    "the cluster": solder(("at 1, 3 turned", "at 1.5, 3 turned")),
    "the cluster turned further": solder(("turned 10", "turned 15")),
    "the cluster turned back": solder(("turned 10", "turned -10")),
    "the cluster not turned": solder((" turned 10", "")),
    "the cluster turned once around": cosmetic(("turned 10", "turned -350")),
    "the cluster's name": cosmetic(("cluster thumb", "cluster thumbs")),
    "a gap": solder(("D  ~1  G", "D  ~1.25  G")),
    "no gap": solder(("D  ~1  G", "D G")),
    "one line": solder(("line A", "line in 0.25 A")),
    "one key": solder(("T Y\n", "T ~0.5 Y\n")),
    "two gaps written as one offset": cosmetic(("line Q  ~1  W", "line Q  ~0.5 ~0.5  W")),
    "a line split at the same places": cosmetic(
        ("  line A S D  ~1  G H\n", "  line A S D\n  line in 4 down -1 G H\n")
    ),
    "a wide key": solder(("line Z X", "line Z X:1.5")),
    "a tall key": solder(("line Z X", "line Z X:1x2")),
    "a size of one": cosmetic(("line Z X", "line Z:1 X:1")),
    "a size of one by one": cosmetic(("line Z X", "line Z X:1x1")),
    "a hole": solder(("  keep", "  hole at 7, 7\n  keep")),
    "no hole": solder(("  hole at 7, 5\n", "")),
    "a hole moved": solder(("hole at 7, 5", "hole at 7, 5.5")),
    "a wider margin": solder(("margin 8 mm", "margin 9 mm")),
    "rounder corners": solder(("margin 8 mm", "margin 8 mm radius 5 mm")),
    "the usual radius said": cosmetic(("margin 8 mm", "margin 8 mm radius 2 mm")),
    "the outline gone": solder(("  outline margin 8 mm\n", "")),
    "narrower cut-outs": solder(("wiring\n", "  cut-out 13.8 x 14 mm\nwiring\n")),
    "the usual cut-outs said": cosmetic(("wiring\n", "  cut-out 14 x 14.0 mm\nwiring\n")),
    "a thicker plate": solder(("thickness 4 mm", "thickness 4.5 mm")),
    "the usual thickness": solder(("  thickness 4 mm\n", "")),
    "the thickness before the lines": cosmetic(
        ("  thickness 4 mm\n", ""), ("plate\n", "plate\n  thickness 4.0 mm\n")
    ),
    "a light moved": solder(("CapsLock at 8.5, 4", "CapsLock at 8.5, 4.5")),
    "a light on another pin": solder_and_reflash(("on PC6", "on PD7")),
    "a light to ground": solder_and_reflash(("to supply", "to ground")),
    "a light of another colour": solder(("green 2 V", "red 2.1 V")),
    "a light with less current": solder(("green 2 V", "green 2 V at 1 mA")),
    "the usual current of a light said": cosmetic(("green 2 V", "green 2.0 V at 2 mA")),
    "a light of two layers": reflash(("while both is", "while nav and sym are")),
    "a light of another name": reflash(
        ("light CapsLock at", "light NumLock at"), ("light CapsLock on", "light NumLock on")
    ),
    "a light less": solder_and_reflash(
        ("  light CapsLock at 8.5, 4\n", ""), ("  light CapsLock on PC6\n", "")
    ),
    "lights in another order": cosmetic(
        ("  light CapsLock on PC6\n", ""), ("both is on\n", "both is on\n  light CapsLock on PC6\n")
    ),
    "a stabiliser more": solder(("none A W", "none A")),
    "a stabiliser less": solder(("none A W", "none A W S")),
    "stabilisers in another order": cosmetic(("none A W", "none W A")),
    "stabilizer": cosmetic(("stabiliser none", "stabilizer none")),
    "another screw": solder(("hole at 7, 5", "hole at 7, 5 for M2")),
    "the usual screw said": cosmetic(("hole at 7, 5", "hole at 7, 5 for M3")),
    "holes in another order": cosmetic(
        ("  hole at 7, 3\n  hole at 7, 5\n", "  hole at 7, 5\n  hole at 7, 3\n")
    ),
    "a hole written before the lines": cosmetic(
        ("  hole at 7, 5\n", ""), ("plate\n", "plate\n  hole at 7, 5\n")
    ),
    "an area to keep clear": solder(("wiring\n", "  keep clear 9, 3, 1, 1\nwiring\n")),
    "an area gone": cosmetic(("  keep clear 8, 0, 1, 2\n", "")),
    "an area moved": solder(("clear 8, 0", "clear 8, 1")),
    "an area larger": solder(("0, 1, 2", "0, 1, 3")),
    "the controller": solder(("at 10, 2 turned", "at 10, 3 turned")),
    "the controller, all else with it but the keys": solder(*moved(1, 0)[2:]),
    "the controller turned": solder(("turned 90", "turned 45")),
    "the controller not turned": solder(("2 turned 90", "2")),
    "the controller turned once around": cosmetic(("turned 90", "turned -270")),
    "the controller's place before the lines": cosmetic(
        ("  controller at 10, 2 turned 90\n", ""),
        ("plate\n", "plate\n  controller at 10, 2 turned 90\n"),
    ),
    "the place of the controller gone": cosmetic(("  controller at 10, 2 turned 90\n", "")),
    "two plate lines exchanged at the same places": reflash(
        (HALF, "  line down 1 A S D  ~1  G H\n  line down -2 Q  ~1  W E T Y\n")
    ),
}

WIRING: dict[str, Edit] = {
    "rows called columns": cosmetic(*AXES),
    "rows called columns, and the band turned": solder_and_reflash(
        *[one for one in AXES if "band" not in one[0]]
    ),
    "rows called columns, and a pin moved": solder_and_reflash(*AXES, ("on PB3", "on PB5")),
    "rows called columns, and a cell": reflash(*AXES, ("Q = 1", "Q = 3")),
    "rows called columns, and a wire renamed": cosmetic(*AXES, ("row c4", "row c9")),
    "a pin": solder_and_reflash(("on PB3", "on PB5")),
    "two pins exchanged": solder_and_reflash(
        ("on PB3", "on PB9"), ("on PB4", "on PB3"), ("on PB9", "on PB4")
    ),
    "a row and a column exchange their pins": solder_and_reflash(
        ("on PB4", "on PD9"), ("on PD4", "on PB4"), ("on PD9", "on PD4")
    ),
    "all pins of an axis": solder_and_reflash(
        *[(f"on PB{n}", f"on PF{p}") for n, p in enumerate((0, 1, 4, 5, 6))]
    ),
    "a wire's colour": cosmetic(("wire red", "wire green")),
    "a wire without colour": cosmetic((" wire red", "")),
    "a colour more": cosmetic(("on PB1 ", "on PB1 wire white ")),
    "a wire's name": cosmetic(("column c4", "column last")),
    "wires that exchange their names": cosmetic(
        ("row r0", "row rx"), ("row r1", "row r0"), ("row rx", "row r1")
    ),
    "all wires' names": cosmetic(*[(f" c{n} ", f" k{n} ") for n in range(5)]),
    "a wire's visits turned round": cosmetic(("Q A Z", "Z A Q")),
    "a row's visits in another order": cosmetic(("A to H", "S A D G H")),
    "rows in another order": reflash(
        ("  row r2 on PD4  Z X\n", ""), ("  row r0", "  row r2 on PD4  Z X\n  row r0")
    ),
    "columns in another order": reflash(
        ("  column c4 on PB4  Y H\n", ""), ("  column c0", "  column c4 on PB4  Y H\n  column c0")
    ),
    "columns before rows": cosmetic(
        ("  row r0 on PD0 wire red  Q to Y\n", ""),
        (
            "  column c4 on PB4  Y H\n",
            "  column c4 on PB4  Y H\n  row r0 on PD0 wire red  Q to Y\n",
        ),
        ("  row r1 on PD1  A to H\n", ""),
        ("  row r2 on PD4  Z X\n", ""),
        ("\nactions", "  row r1 on PD1  A to H\n  row r2 on PD4  Z X\n\nactions"),
    ),
    "a key on another column": solder_and_reflash(
        ("W S X", "W S"), ("c2 on PB2  E D", "c2 on PB2  E D X")
    ),
    "a key on another row": solder_and_reflash(
        ("A to H", "A to G"), ("on PD4  Z X", "on PD4  Z X H")
    ),
    "two keys exchange their columns": solder_and_reflash(
        ("T G\n", "Y G\n"), ("PB4  Y H", "PB4  T H")
    ),
    "a wire more": solder_and_reflash(
        ("T G\n", "T\n"), ("  column c4", "  column c5 on PB6  G\n  column c4")
    ),
    "a wire less": solder_and_reflash(
        ("  row r2 on PD4  Z X\n", "  row r2 on PD4  Z X H G\n"),
        ("  row r1 on PD1  A to H\n", "  row r1 on PD1  A S D\n"),
        ("  column c4 on PB4  Y H\n", ""),
        ("PB2  E D", "PB2  E D Y H"),
        ("boot-loader hold Q Y", "boot-loader hold Q W"),
        ("  row r0 on PD0 wire red  Q to Y", "  row r0 on PD0 wire red  Q to T"),
        ("  row r2 on PD4  Z X H G", "  row r2 on PD4  Z X H Y"),
        ("A S D\n  row", "A S D G\n  row"),
    ),
    "the other axis driven": reflash(("drive columns, sense rows", "drive rows, sense columns")),
    "another kind of diode": solder(("1N4148", "BAT85")),
    "a diode more": solder(("  without diode Z\n", "")),
    "a diode less": solder(("without diode Z", "without diode X Z")),
    "a diode at another key": solder(("without diode Z", "without diode X")),
    "a band turned": solder(("  settle", "  reversed H\n  settle")),
    "another controller": solder_and_reflash(("controller atmega32u4", "controller at90usb1286")),
    "a controller more": cosmetic(
        ("controller atmega32u4", "controller atmega32u4, at90usb1286"),
        *(
            (f"on {p}", f"on {p}, {p}")
            for p in ("PD0", "PD1", "PD4", "PB0", "PB1", "PB2", "PB3", "PB4")
        ),
        *((f"on {p}", f"on {p}, {p}") for p in ("PC6", "PC7")),
    ),
}

KEYS_: dict[str, Edit] = {
    "a key more": solder_and_reflash(
        ("T Y\n", "T Y U\n"),
        ("Q to Y", "Q to U"),
        ("  column c4", "  column c5 on PB6  U\n  column c4"),
    ),
    "a key more on free crossings": solder_and_reflash(
        ("line Z X", "line Z X C"), ("PD4  Z X", "PD4  Z X C"), ("PB2  E D", "PB2  E D C")
    ),
    "a key less": solder_and_reflash(
        ("G H\n  cluster", "G\n  cluster"), ("A to H", "A to G"), ("Y H", "Y")
    ),
    "a key's name, its cell as before": cosmetic(
        ("D  ~1  G", "D  ~1  left"),
        ("T G", "T left"),
        ("G = F9", "left = F9"),
        ("layer base\n", "layer base\n  left = G\n"),
    ),
    "a key's name, which is what it types": reflash(
        ("D  ~1  G", "D  ~1  J"), ("T G", "T J"), ("G = F9", "J = F9")
    ),
    "two keys exchange their names": reflash(
        ("T Y\n", "Y T\n"),
        ("Q to Y", "Q to T"),
        ("T G", "Y G"),
        ("Y H", "T H"),
        ("hold Q Y", "hold Q T"),
        ("T = once", "Y = once"),
        ("Y = Vol", "T = Vol"),
    ),
    "a key moved, and a gap of nothing": solder(("T Y\n", "T ~1 ~0 Y\n")),
}

LAYERS: dict[str, Edit] = {
    "a cell": cell("Q = 1", "Q = 3"),
    "a cell with a modifier": cell("Q = 1", "Q = Shift+1"),
    "a cell that does nothing": cell("Q = 1", "Q = nothing"),
    "a cell less": cell("Q = 1  W = 2", "W = 2"),
    "a cell more": cell("Q = 1  W", "Q = 1  A = 9  W"),
    "a cell of the base": cell("X = copy", "X = copy  W = B"),
    "a cell that says what the key's name says": cosmetic(("X = copy", "X = copy  W = W")),
    "a cell of the base less": cell("  X = copy\n", ""),
    "a named action for the same": cosmetic(("X = copy", "X = Ctrl+C")),
    "another named action": cell("X = copy", "X = spare"),
    "what a used action does": cell("copy = Ctrl+C", "copy = Ctrl+Insert"),
    "what an idle action does": cosmetic(("spare = Ctrl+V", "spare = Ctrl+X")),
    "an idle action more": cosmetic(("  spare", "  other = Ctrl+Y\n  spare")),
    "an idle action less": cosmetic(("  spare = Ctrl+V\n", "")),
    "an action's name": cosmetic(
        ("copy = Ctrl+C", "duplicate = Ctrl+C"), ("X = copy", "X = duplicate")
    ),
    "actions in another order": cosmetic(
        ("  copy = Ctrl+C\n  spare = Ctrl+V\n", "  spare = Ctrl+V\n  copy = Ctrl+C\n")
    ),
    "hold to latch": cell("S = hold layer", "S = latch layer"),
    "hold to once": cell("S = hold layer", "S = once layer"),
    "hold of another layer": cell("S = hold layer nav", "S = hold layer sym"),
    "a latch to a hold": cell("E = latch", "E = hold"),
    "once to latch": cell("T = once Shift", "T = latch layer nav"),
    "another modifier once": cell("T = once Shift", "T = once Ctrl"),
    "a media key": cell("VolumeUp", "VolumeDown"),
    "a media key becomes a plain one": cell("VolumeUp", "F5"),
    "the start of the boot loader": cell("Y = VolumeUp", "Y = start boot loader"),
    "the change of base": cell("Y = VolumeUp", "Y = change base to nav"),
    "what a tap is": cell("tap A, hold Shift", "tap B, hold Shift"),
    "what a hold is": cell("tap A, hold Shift", "tap A, hold Ctrl"),
    "a hold of a layer": cell("tap A, hold Shift", "tap A, hold layer nav"),
    "a hold's time": cell("after 180", "after 200"),
    "a hold by press": cell("after 180 ms", "after 180 ms, by press"),
    "a hold by time": cell("after 180 ms", "after 180 ms, by time"),
    "a roll": cell("after 180 ms", "after 180 ms, by press, roll 100 ms"),
    "the other hand": cell("after 180 ms", "after 180 ms, other hand"),
    "a hold's default time": cell("hold Shift, after 180 ms", "hold Shift"),
    "the default time written out": cell("hold Shift, after 180 ms", "hold Shift, after 200 ms"),
    "a tap alone": cell("tap A, hold Shift, after 180 ms", "A"),
    "a layer's name": cosmetic(
        ("layer nav\n  Q", "layer arrows\n  Q"),
        ("hold layer nav", "hold layer arrows"),
        ("once layer nav", "once layer arrows"),
        ("while nav", "while arrows"),
    ),
    "layers in another order": reflash(
        ("layer sym\n  Q = F1  T = once Shift\n  Y = VolumeUp\n\n", ""),
        ("layer nav\n  Q", "layer sym\n  Q = F1  T = once Shift\n  Y = VolumeUp\n\nlayer nav\n  Q"),
    ),
    "two layers exchange their names": reflash(
        ("layer nav\n  Q", "layer x\n  Q"),
        ("layer sym\n  Q", "layer nav\n  Q"),
        ("layer x\n  Q", "layer sym\n  Q"),
    ),
    "two layers, wherever they are named, exchange their names": cosmetic(
        ("S = hold layer nav", "S = hold layer x"),
        ("D = hold layer sym", "D = hold layer nav"),
        ("S = hold layer x", "S = hold layer sym"),
        ("once layer nav, second hold layer sym", "once layer sym, second hold layer nav"),
        ("\nlayer nav\n", "\nlayer x\n"),
        ("latch layer sym", "latch layer nav"),
        ("\nlayer sym\n", "\nlayer nav\n"),
        ("\nlayer x\n", "\nlayer sym\n"),
    ),
    "three layers exchange their names": reflash(
        ("layer nav\n  Q", "layer x\n  Q"),
        ("layer sym\n  Q", "layer nav\n  Q"),
        ("layer both while nav and sym are on", "layer sym"),
        ("layer x\n  Q", "layer both\n  Q"),
    ),
    "a layer more": reflash(
        ("layer both", "layer more\n  W = F2\n\nlayer both"), ("X = copy", "X = hold layer more")
    ),
    "a layer less": reflash(
        ("\nlayer both while nav and sym are on\n  G = F9\n", ""),
        ("while both is on", "while sym is on"),
    ),
    "what a layer needs": reflash(
        ("layer both while nav and sym are on", "layer both"), ("X = copy", "X = hold layer both")
    ),
    "a layer that needs others now": reflash(
        ("\nlayer sym\n", "\nlayer sym while nav and both are on\n"),
        ("layer both while nav and sym are on", "layer both"),
        ("X = copy", "X = hold layer both"),
        ("D = hold layer sym", "D = D"),
        ("E = latch layer sym", "E = E"),
    ),
}

SEVERAL: dict[str, Edit] = {
    "what the first press does": cell("first F3", "first F2"),
    "what the second press does": cell("second F4", "second Ctrl+F4"),
    "what the third press does": cell("third F8", "third VolumeUp"),
    "a third press more": cell("second F4", "second F4, third F5"),
    "a third press less": cell(", third F8", ""),
    "the first and the second press exchanged": cell("first F3, second F4", "first F4, second F3"),
    "the time of a second press": cell("within 250 ms", "within 400 ms"),
    "the default time of a second press": cell(", within 250 ms", ""),
    "the default time of a third press written out": cosmetic(
        ("third F8", "third F8, within 300 ms")
    ),
    "the layer of a second press": cell("second hold layer sym", "second hold layer nav"),
    "how long the layer of a second press lasts": cell("second hold layer", "second latch layer"),
    "a second press for a key of one": cell("W = 2", "W = first 2, second 3"),
    "one press for a key of two": cell("Q = first F3, second F4, within 250 ms", "Q = F3"),
    "a second press for a hold": cell("tap A, hold Shift, after 180 ms", "first A, second Shift"),
    "a named action as a second press": cell("second F4", "second copy"),
    "a name as a second press for the same": cosmetic(
        ("spare = Ctrl+V", "spare = F4"), ("second F4", "second spare")
    ),
    "what a key does with a modifier": cell("with Shift F6", "with Shift F8"),
    "what a key does without a modifier": cell("E = F5,", "E = F8,"),
    "another modifier": cell("with Shift F6", "with GUI F6"),
    "one side of a modifier": cell("with Shift F6", "with LeftShift F6"),
    "two modifiers for one": cell("with Shift F6", "with Ctrl+Shift F6"),
    "a modifier more": cell("with Ctrl+Alt F7", "with Ctrl+Alt F7, with Alt F8"),
    "a modifier less": cell(", with Ctrl+Alt F7", ""),
    "which modifier counts first": cell(
        "with Shift F6, with Ctrl+Alt F7", "with Ctrl+Alt F7, with Shift F6"
    ),
    "modifiers exchanged": cell("with Shift F6, with Ctrl+Alt F7", "with Ctrl F6, with Shift F7"),
    "a modifier for a key without": cell("W = 2", "W = 2, with Shift 3"),
    "no modifier for a key with one": cell("E = F5, with Shift F6, with Ctrl+Alt F7", "E = F5"),
    "what a named action does with a modifier": cell("Shift Delete", "Shift Insert"),
    "what goes by a modifier for its name": cosmetic(("Z = erase", ERASES)),
    "two modifiers in another order": cosmetic(("with Ctrl+Alt F7", "with Alt+Ctrl F7")),
}

OTHER_HAND = [("hold Shift, after 180 ms", "hold Shift, other hand")]
HANDS: dict[str, Edit] = {
    "one plate line split in two at the same places": reflash(
        ("  line Q  ~1  W E T Y\n", "  line Q\n  line in 2 down -1 W E T Y\n"), before=OTHER_HAND
    ),
    "a gap that moves the hands' middle": solder_and_reflash(
        ("Q  ~1  W E T Y", "Q W  ~1  E T Y"), before=OTHER_HAND
    ),
}

WITH_KNOBS = [
    ("  light CapsLock at", "  knob dial at 9, 5\n  knob jog  at 10, 5\n  light CapsLock at"),
    (
        "  light CapsLock on",
        "  knob dial on PB6 PB7\n  knob jog  on PD5 PD6 with 2 states a step\n  light CapsLock on",
    ),
    (
        "layer base\n",
        "layer base\n  dial.left = Up  dial.right = Down\n  jog.left = Left  jog.right = Right\n",
    ),
    ("  Q = 1  W", "  dial.left = PageUp\n  Q = 1  W"),
]


KNOBS: dict[str, Edit] = {
    name: edit._replace(before=WITH_KNOBS)
    for name, edit in {
        "another name": cosmetic(*[("dial", "wheel")] * 5),
        "two names exchanged": reflash(
            *[("dial.", "x.")] * 3, *[("jog.", "dial.")] * 2, *[("x.", "jog.")] * 3
        ),
        "statements in another order": cosmetic(
            ("  knob dial on PB6 PB7\n", ""), ("a step\n", "a step\n  knob dial on PB6 PB7\n")
        ),
        "turned round": reflash(("PB6 PB7", "PB7 PB6")),
        "on another pin": solder_and_reflash(("PB6 PB7", "PB6 PE6")),
        "other states": reflash(("with 2", "with 8")),
        "usual states written out": cosmetic(("PB6 PB7", "PB6 PB7 with 4 states a step")),
        "at another place": solder(("dial at 9, 5", "dial at 9, 5.5")),
        "another step": reflash(("PageUp", "Home")),
        "a step more": reflash(("PageUp", "PageUp  jog.left = Home")),
        "gone": solder_and_reflash(
            ("  knob dial at 9, 5\n", ""),
            ("  knob dial on PB6 PB7\n", ""),
            ("  dial.left = Up  dial.right = Down\n", ""),
            ("  dial.left = PageUp\n", ""),
        ),
    }.items()
}

ONE_WAY = ("an area to keep clear", "an area gone")
"""Edits that ask for other work backwards: wires that run round nothing may stay."""

GONE = ("an area gone", "the place of the controller gone")
"""Edits that take away what asks for work while it is there: its own fact says that work."""

EDITS: dict[str, Edit] = {
    f"{block}: {name}": edit
    for block, edits in (
        ("spelling", SPELLING),
        ("settings", SETTINGS),
        ("plate", GEOMETRY),
        ("wiring", WIRING),
        ("keys", KEYS_),
        ("layers", LAYERS),
        ("second presses and modifiers", SEVERAL),
        ("hands", HANDS),
        ("knobs", KNOBS),
    )
    for name, edit in edits.items()
}


def sides_of(edit: Edit) -> tuple[str, str]:
    """The pad before an edit and after it."""
    before = edited(PAD, edit.before, 1)
    return before, edited(before, edit.replaced, 1)
