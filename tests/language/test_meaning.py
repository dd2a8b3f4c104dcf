"""What a file means: the same in other words, another after any change of what it says."""

import functools
import random
import re
from pathlib import Path

import pytest

from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.source import design_of
from tests.amounts import amount
from tests.language.whole import WHOLE, completed
from tests.texts import design_in, edited

ROOT = Path(__file__).parents[2]
EXCHANGED = amount("MATRIXGEN_WORDS", suite=80, long=10_000)
EXAMPLES = [path.read_text("utf-8") for path in sorted((ROOT / "examples").rglob("*.keys"))]

FULL = completed(
    'keyboard "Pad"\n  controller stick-32u4, rp2040-40pin\n  debounce 4 ms, press 2 ms\n'
    '  maker "Me"\n  once lasts 900 ms\n  remember base\n'
    "  usb 1209:0002\n  boot-loader hold A B\n  boot-loader double reset\n"
    "  allow keys-overlap A to B\n\n"
    "plate\n  line A:1.5 ~0.5 B\n  line in 0.25 down 0.5 C D:1x2\n"
    "  hole at 3.25, 0.75\n  hole at -1, 2\n  keep clear 10.5, 1.25, 1, 2.5\n"
    "  cluster left at 5, 1.5 turned 15\n    line E F\n"
    "  cluster right mirrors left about 9\n    line G H\n"
    "  light CapsLock at 9, 0.5\n  light two at 9.5, 0.5\n  knob volume at 9, 1.5\n\n"
    "wiring\n  drive columns, sense rows\n  diodes 1N4148, band toward columns\n"
    "  without diode A B\n  reversed C\n  settle 4 us\n"
    "  row r0 on PD1, GP2 wire red  A to D\n  row r1 on PD0, GP3  E to H\n"
    "  column c0 on PD4, GP4  A E\n  column c1 on PC6, GP5 wire blue  B F\n"
    "  column c2 on PD7, GP6  C G\n  column c3 on PE6, GP7  D H\n"
    "  light CapsLock on PB1, GP8\n"
    "  light two on PB2, GP9 green 2.1 V at 1 mA to supply while two is on\n"
    "  knob volume on PB3 PB4, GP10 GP11\n\n"
    "actions\n  copy = Ctrl+C\n  more = hold layer two\n"
    "  both = tap copy, hold layer two, after 180 ms, by press, roll 50 ms, other hand\n\n"
    "layer base\n  G = more  H = latch layer three  E = both  F = once Shift\n"
    "  C = once layer two  D = change base to three\n\n"
    "layer two\n  A = 1  B = copy  C = nothing\n\n"
    "layer three\n  1 2\n  ~ 3\n  ~ 4\n  5 ~\n\n"
    "layer four while two and three are on\n  A = 9\n"
)


@functools.cache
def meaning(text):
    return meaning_of(design_in(text))


SAME = {
    "a run told in full": ("A to D", "A B C D"),
    "a run of exceptions": ("without diode A B", "without diode A to B"),
    "exceptions in another order": ("without diode A B", "without diode B A"),
    "a statement in two": ("  without diode A B\n", "  without diode A\n  without diode B\n"),
    "the default said": ('"Pad"\n', '"Pad"  # debounce 5 ms is not said here\n'),
    "a cell's phrase for its name": ("G = more", "G = hold layer two"),
    "cells in another order": ("A = 1  B = copy", "B = copy  A = 1"),
    "a list for a picture": (
        "  1 2\n  ~ 3\n  ~ 4\n  5 ~\n",
        "  A = 1  B = 2  D = 3  F = 4  G = 5\n",
    ),
    "what the key's name says anyway": ("G = more", "G = more  A = A  B = B"),
    "another word for a usage": ("A = 1  B = copy  C", "A = 1  B = ctrl+c  C"),
    "another size of the same": ("A:1.5", "A:1.50x1"),
    "holes in another order": (
        "hole at 3.25, 0.75\n  hole at -1, 2\n",
        "hole at -1.0, 2\n  hole at 3.25, 0.75\n",
    ),
    "a hole in a cluster": (
        "  hole at -1, 2\n  keep clear 10.5, 1.25, 1, 2.5\n  cluster left at 5, 1.5 turned 15\n",
        "  keep clear 10.5, 1.25, 1, 2.5\n  cluster left at 5, 1.5 turned 15\n  hole at -1, 2\n",
    ),
    "a whole turn more": ("turned 15", "turned -345"),
    "a mirror image written out": (
        "cluster right mirrors left about 9\n    line G H",
        "cluster right at 13, 1.5 turned -15\n    line in -2 G H",
    ),
    "a tap and hold for its name": (
        "E = both",
        "E = tap Ctrl+C, hold layer two, other hand, after 180ms, roll 50 ms, by press",
    ),
    "needed layers the other way": ("two and three are", "three and two are"),
    "the words of allowed places": ("keys-overlap A to B", "keys-overlap B A"),
}


@pytest.mark.parametrize("edit", SAME.values(), ids=SAME)
def test_what_can_be_written_in_two_ways_means_the_same(edit):
    assert meaning(edited(FULL, [edit])) == meaning(FULL)


def blocks_of(text):
    return [f"{block}\n" for block in re.split(r"\n(?=\S)", text)]


def test_the_order_of_blocks_does_not_count_but_that_of_layers_does():
    *others, base, two, three = blocks_of(FULL)
    assert meaning("".join([base, *reversed(others), two, three])) == meaning(FULL)
    assert meaning("".join([*others, base, three, two])) != meaning(FULL)


OTHER = {
    "name": ('"Pad"', '"Pod"'),
    "controller": ("stick-32u4, rp2040-40pin", "board-32u4-25, rp2040-40pin"),
    "controllers the other way": ("stick-32u4, rp2040-40pin", "rp2040-40pin, stick-32u4"),
    "debounce": ("4 ms", "5 ms"),
    "press": ("press 2 ms", "press 3 ms"),
    "no press": (", press 2 ms", ""),
    "time that once lasts": ("900 ms", "800 ms"),
    "once for ever": ("  once lasts 900 ms\n", ""),
    "base forgotten": ("  remember base\n", ""),
    "tap": ("tap copy", "tap Esc"),
    "hold": ("hold layer two, after", "hold Ctrl, after"),
    "layer of a hold": ("hold layer two, after", "hold layer three, after"),
    "time of a hold": ("180 ms", "190 ms"),
    "what decides": ("by press", "by release"),
    "roll": ("roll 50 ms", "roll 60 ms"),
    "one hand": (", other hand", ""),
    "modifier for one key": ("once Shift", "once Ctrl"),
    "layer for one key": ("once layer two", "once layer three"),
    "other base": ("base to three", "base to base"),
    "needed layers": ("layer four while two and three are on", "layer four"),
    "maker": ('"Me"', '"You"'),
    "vendor": ("1209:", "120A:"),
    "product": (":0002", ":0003"),
    "boot keys": ("boot-loader hold A B", "boot-loader hold A C"),
    "double reset": ("  boot-loader double reset\n", ""),
    "allowed check": ("allow keys-overlap", "allow ghost-possible"),
    "allowed place": ("keys-overlap A to B", "keys-overlap A"),
    "width": ("A:1.5", "A:1.25"),
    "gap": ("~0.5", "~0.75"),
    "offset": ("in 0.25", "in 0.5"),
    "drop": ("down 0.5", "down 0.75"),
    "height": ("D:1x2", "D:1x1.5"),
    "place of a cluster": ("at 5, 1.5", "at 5, 1.75"),
    "angle": ("turned 15", "turned 16"),
    "name of a cluster": ("left", "lefthand"),
    "place of a hole": ("at 3.25, 0.75", "at 3.25, 0.8"),
    "no hole": ("  hole at -1, 2\n", ""),
    "one hole more": ("  hole at -1, 2\n", "  hole at -1, 2\n  hole at -1, 3\n"),
    "place of an area": ("clear 10.5,", "clear 10.25,"),
    "width of an area": ("1, 2.5\n", "1.5, 2.5\n"),
    "height of an area": ("1, 2.5\n", "1, 2\n"),
    "no area": ("  keep clear 10.5, 1.25, 1, 2.5\n", ""),
    "mirror": ("about 9", "about 9.5"),
    "drive": ("drive columns, sense rows", "drive rows, sense columns"),
    "diode": ("1N4148", "BAT54"),
    "band": ("band toward columns", "band toward rows"),
    "exception": ("without diode A B", "without diode A"),
    "turned diode": ("reversed C", "reversed D"),
    "settle": ("settle 4 us", "settle 5 us"),
    "no settle": ("  settle 4 us\n", ""),
    "colour": ("wire red", "wire green"),
    "no colour": (" wire red", ""),
    "pin": ("PD1, GP2", "PB1, GP2"),
    "visits in another order": ("A to D", "D to A"),
    "visit": ("B F\n", "F B\n"),
    "name of a wire": ("row r1", "row r2"),
    "axis": ("column c3", "row c3"),
    "action": ("Ctrl+C", "Ctrl+X"),
    "name of an action": ("copy", "kopie"),
    "layer that is held": ("hold layer two", "hold layer three"),
    "latch for hold": ("H = latch", "H = hold"),
    "cell": ("A = 1", "A = 2"),
    "cell left out": ("A = 1  ", ""),
    "nothing for see-through": ("  ~ 3", "  nothing 3"),
    "picture": ("  1 2\n", "  2 1\n"),
    "name of a layer": ("three", "drei"),
}


@pytest.mark.parametrize("edit", OTHER.values(), ids=OTHER)
def test_any_other_change_means_another(edit):
    assert meaning(edited(FULL, [edit])) != meaning(FULL)


NUMBER = re.compile(r"(?<![\w.+:-])\d+(?:\.\d+)?(?![\w.:])")
WORD = re.compile(r"(?<=[ =])(?!to )[A-Za-z][\w-]*(?=[ \n])")
"""Any word but `to`: `A B C` and `A to C` may mean the same."""


def changes(chance, text):
    """A text with one word of the plate, wiring or layers exchanged for another of the file's."""
    lines = text.split("\n")
    number = chance.choice([n for n, line in enumerate(lines) if line.startswith(" ")])
    words = list(WORD.finditer(lines[number]))
    if not words:
        return None
    word = chance.choice(words)
    other = chance.choice([found.group() for line in lines for found in WORD.finditer(line)])
    if other.casefold() == word.group().casefold():
        return None
    line = lines[number]
    lines[number] = line[: word.start()] + other + line[word.end() :]
    return "\n".join(lines)


@pytest.mark.parametrize("seed", range(4))
def test_a_word_exchanged_for_another_one_means_another_file(seed):
    chance, tried = random.Random(seed), 0
    texts = [FULL, WHOLE, *(re.sub(r" *#.*", "", text) for text in EXAMPLES)]
    for _ in range(EXCHANGED):
        text = chance.choice(texts)
        changed = changes(chance, text)
        design, _ = design_of(SourceText("x", changed)) if changed else (None, [])
        if design is not None:
            tried += 1
            assert meaning_of(design) != meaning(text), changed
    assert tried > 0.08 * EXCHANGED
