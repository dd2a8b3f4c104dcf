"""Revisions read one after the other are what each of them is when it is read alone."""

from __future__ import annotations

import random

import pytest

from matrixgen.of_same import OfSame
from matrixgen.record import changed
from matrixgen.source import LIMITS, read_before, read_design
from tests.amounts import amount
from tests.generator.files import REVISED, draft
from tests.language.test_by_lark import broken

FILES = amount("MATRIXGEN_FILES_READ_BEFORE", suite=8, long=2000)

PAD = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B C Y

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A to Y
  column c0 on PB0  A
  column c1 on PB1  B to Y
"""


@pytest.fixture
def alone(monkeypatch):
    """Reads a text as if nothing had been read before."""

    def read(*words):
        with monkeypatch.context() as patch:
            for name in ("_plates", "_wirings"):
                patch.setattr(read_before, name, OfSame())
            return read_design(*words)

    return read


def test_revisions_of_a_file_say_what_they_say_alone(alone):
    for seed in range(FILES):
        file, chance = draft(seed, most_keys=12), random.Random(seed)
        texts = [file.text, *(file.revised(part, seed + 1).text for part in REVISED)]
        texts += [broken(text, chance) for text in texts] + texts
        for text in texts:
            assert read_design("x.keys", text) == alone("x.keys", text)


LAMP = f"{PAD}  light lamp on PB7 while nav is on\n"
LIT = f"{LAMP}\nlayer base\n  A = hold layer nav\n\nlayer nav\n  B = C\n"
AFTER = "atmega32u4\n"
OTHERS = ("computer de", "computer nowhere", "controller rp2040", "boot-loader hold A B")


@pytest.mark.parametrize("other", OTHERS)
def test_what_the_block_before_says_counts(alone, other):
    """It takes the place of an empty line, so that the others stay on theirs."""
    text = PAD.replace(f"{AFTER}\n", f"{AFTER}  {other}\n")
    assert text.count("\n") == PAD.count("\n")
    for one in (PAD, text, PAD, text):
        assert read_design("x.keys", one) == alone("x.keys", one)


def test_the_layers_that_lights_are_for_count(alone):
    assert read_design("x.keys", LIT)[0]
    for one in (LAMP, LIT, LAMP, LIT):
        assert read_design("x.keys", one) == alone("x.keys", one)


def test_the_path_and_the_limits_count(alone):
    few = changed(LIMITS, keys=3)
    for words in (("x.keys", PAD), ("y.keys", PAD), ("y.keys", PAD, few), ("y.keys", PAD)):
        assert read_design(*words) == alone(*words)


def test_the_plate_of_the_next_revision_is_the_same_object():
    one, other = (
        read_design("x.keys", f"{PAD}{more}")[0] for more in ("", "\nlayer base\n  A = B\n")
    )
    assert one.keyboard.plate is other.keyboard.plate
