"""Who knows whom in the engine and usb folders goes one way, and a header tells of its own file."""

from __future__ import annotations

import re
from collections.abc import Sequence
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

from matrixgen.resources import resource

FIRMWARE = resource("templates") / "firmware"
INCLUDE = re.compile(r'^#include "(\w+)\.h"', re.MULTILINE)
DECLARED = re.compile(r"^[a-z]\w*(?: \w+)* \**(\w+)\([^;{]*\);", re.MULTILINE)
DEFINED = re.compile(r"^[a-z]\w*(?: \w+)* \**(\w+)\([^;{]*\)\n\{", re.MULTILINE)
SEAMS = {"transport", "usb", "class"}
"""Headers that another folder looks through; several files stand behind them."""


KEYBOARD, BENCH = ("engine", "usb"), ("bench", "usb_serial")


def files(suffix: str, folders: Sequence[str] = KEYBOARD) -> list[Path]:
    found = [path for folder in folders for path in (FIRMWARE / folder).glob(suffix)]
    assert len(found) > 6
    return found


def known_by(folders: Sequence[str] = KEYBOARD) -> dict[str, set[str]]:
    """Return what each file, with its header, includes."""
    known: dict[str, set[str]] = {}
    for path in files("*.[ch]", folders):
        includes = set(INCLUDE.findall(path.read_text("utf-8")))
        known.setdefault(path.stem, set()).update(includes - {path.stem})
    return known


@pytest.mark.parametrize("folders", [KEYBOARD, BENCH])
def test_no_two_files_know_each_other_over_any_number_of_others(folders) -> None:
    TopologicalSorter(known_by(folders)).prepare()


def test_what_answers_are_made_of_lies_below_those_who_answer() -> None:
    order = list(TopologicalSorter(known_by()).static_order())
    assert order.index("answer") < order.index("hid") < order.index("device")


def test_a_file_that_knew_what_knows_it_would_be_caught() -> None:
    planted = known_by()
    planted["answer"].add("device")
    with pytest.raises(CycleError):
        TopologicalSorter(planted).prepare()


@pytest.mark.parametrize("folders", [KEYBOARD, BENCH])
def test_every_function_of_a_header_is_in_the_file_of_that_name(folders) -> None:
    defined = {
        path.stem: DEFINED.findall(path.read_text("utf-8")) for path in files("*.c", folders)
    }
    for path in files("*.h", folders):
        if path.stem not in SEAMS:
            declared = DECLARED.findall(path.read_text("utf-8"))
            assert set(declared) <= set(defined.get(path.stem, [])), path.name
