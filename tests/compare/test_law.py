"""Cosmetic means the same image, a reflash means another one: by the tables that are built.

`test_images.py` builds images of the edits of `scripts.py`; here are the edits that a script has
no word for, and their images are the generated C files, comments aside.
"""

from pathlib import Path

import pytest

from matrixgen.compare import compare
from matrixgen.compare.fact_lines import fact_lines
from matrixgen.compare.works import RECORDS
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import examine_text
from matrixgen.model import Identity
from matrixgen.model.work import WORKS
from tests.compare.tables import tables_of
from tests.language.test_fields import Versioned, with_version

PAD = """\
keyboard "Pad"
  controller atmega32u4
  debounce 5 ms

plate
  line Q  ~1  W E T Y
  line A S D  ~1  G H

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  settle 5 us
  row r0 on PD0  Q to Y
  row r1 on PD1  A to H
  column c0 on PB0  Q A
  column c1 on PB1  W S
  column c2 on PB2  E D
  column c3 on PB3  T G
  column c4 on PB4  Y H

layer base
  A = tap A, hold Shift, other hand
  S = hold layer two

layer two
  Q = 1  W = 2
"""

EDITS = {
    "one plate line split in two at the same places": (
        "reflash",
        ("  line Q  ~1  W E T Y\n", "  line Q\n  line in 2 down -1 W E T Y\n"),
    ),
    "a gap that moves the hands' middle": (
        "solder, and reflash",
        ("Q  ~1  W E T Y", "Q W  ~1  E T Y"),
    ),
    "a gap made wider": ("solder", ("A S D  ~1  G H", "A S D  ~1.25  G H")),
    "the default ids written out": (
        "cosmetic",
        ("  debounce 5 ms\n", "  debounce 5 ms\n  usb 1209:0001\n"),
    ),
    "the default maker written out": (
        "cosmetic",
        ("  debounce 5 ms\n", '  debounce 5 ms\n  maker "Made by hand"\n'),
    ),
    "the default debounce left out": ("cosmetic", ("  debounce 5 ms\n", "")),
    "a press of no time": ("cosmetic", ("debounce 5 ms", "debounce 5 ms, press 0 ms")),
    "a debounce that is rounded up to the same": ("cosmetic", ("debounce 5 ms", "debounce 4.5 ms")),
    "a debounce": ("reflash", ("debounce 5 ms", "debounce 6 ms")),
    "a time that no key asks for": (
        "cosmetic",
        ("  debounce 5 ms\n", "  debounce 5 ms\n  once lasts 900 ms\n"),
    ),
    "a base to remember that no key changes": (
        "cosmetic",
        ("  debounce 5 ms\n", "  debounce 5 ms\n  remember base\n"),
    ),
    "two rows exchanged": (
        "reflash",
        (
            "  row r0 on PD0  Q to Y\n  row r1 on PD1  A to H\n",
            "  row r1 on PD1  A to H\n  row r0 on PD0  Q to Y\n",
        ),
    ),
    "a wire's visits turned round": ("cosmetic", ("  Q A\n", "  A Q\n")),
}


def examined(text):
    found = examine_text("pad.keys", text, Path())
    assert found.is_finished, [one.message for one in found.findings]
    return found


@pytest.mark.parametrize(("work", "edit"), EDITS.values(), ids=EDITS)
def test_what_an_edit_asks_for_is_what_it_does_to_the_image(work, edit):
    there, instead = edit
    assert there in PAD
    old, new = examined(PAD), examined(PAD.replace(there, instead))
    found = compared(old, new)
    needs_image = any(change.needs_image for change in found.changes)
    also = ", and reflash" if found.kind == "solder" and needs_image else ""
    assert f"{found.kind}{also}" == work
    is_other = tables_of(PAD) != tables_of(PAD.replace(there, instead))
    assert is_other == needs_image, found.headline


def test_keys_that_start_the_boot_loader_are_in_no_order():
    one = PAD.replace("  debounce", "  boot-loader hold Q W\n  debounce")
    other = PAD.replace("  debounce", "  boot-loader hold W Q\n  debounce")
    assert compared(examined(one), examined(other)).kind == "cosmetic"
    assert tables_of(one) == tables_of(other)


@pytest.mark.parametrize(("work", "edit"), EDITS.values(), ids=EDITS)
def test_facts_say_what_a_comparison_says(work, edit):
    """The most work of the lines that differ is that of the comparison."""
    old, new = examined(PAD).design, examined(PAD.replace(*edit)).design
    lines = set(fact_lines(old)) ^ set(fact_lines(new))
    works = {line.split("]")[0][1:] for line in lines}
    assert next((one for one in WORKS if one in works), "cosmetic") == work.partition(",")[0]
    assert ("reflash" in works) == ("reflash" in work)


def test_a_setting_that_only_the_model_knows_is_told(monkeypatch):
    monkeypatch.setitem(RECORDS, "keyboard", (Identity, Versioned))
    old, new = with_version(None), with_version("1.2")
    found = compare(old, new)
    assert [(change.kind, change.text) for change in found.changes] == [
        ("reflash", "the version changed from the default to `1.2`")
    ]
    assert "[reflash] version: 1.2" in fact_lines(new)
