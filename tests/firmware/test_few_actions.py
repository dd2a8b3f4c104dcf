"""Keyboards of one or two actions: what they do not have is missed nowhere in the tree they get."""

from __future__ import annotations

import subprocess
from itertools import combinations_with_replacement
from pathlib import Path

import pytest

from matrixgen.boards import Mounted
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.jobs.examine import examine_text
from matrixgen.toolchain.compiling import write_tree
from tests.amounts import IS_LONG

PHRASES = (
    *("B", "Ctrl", "PlayPause", "Sleep", "nothing", "start boot loader", "unlatch layers"),
    *("hold layer x", "latch layer x", "once layer x", "once Shift", "change base to x"),
    *("tap B, hold Ctrl", "tap nothing, hold layer x", "tap unlatch layers, hold nothing"),
    *("tap once Shift, hold nothing, other hand", "tap PlayPause, hold latch layer x"),
)
PAIRS = [*combinations_with_replacement(PHRASES, 2)] if IS_LONG else [(one, one) for one in PHRASES]
SETTINGS = {"plain": "", "with times": "  once lasts 900 ms\n  debounce 5 ms, press 2 ms\n"}
TEXT = """\
keyboard "Odd"
  controller atmega32u4
{settings}
plate
  line A B

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row r on PD0  A B
  column c on PD1  A
  column d on PD2  B

layer base
  A = {one}  B = {other}

layer x
  A = {one}  B = {other}
"""
CHECKED = ["-mmcu=atmega32u4", "-std=gnu11", "-Os", "-Wall", "-Wextra", "-Werror", "-Wconversion"]
FOLDERS = ("engine", "usb", "tables")


def mounted_of(one: str, other: str, settings: str = "") -> Mounted:
    text = TEXT.format(one=one, other=other, settings=settings)
    (mounted,) = examine_text("odd.keys", text, Path()).mounted
    return mounted


@pytest.mark.few(8)
@pytest.mark.parametrize("settings", SETTINGS.values(), ids=SETTINGS)
@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_a_keyboard_of_so_few_actions_compiles(one, other, settings, tmp_path) -> None:
    tree = firmware_tree(firmware_view(mounted_of(one, other, settings), "odd.keys"))
    write_tree(tree, tmp_path)
    sources = [name for name in tree if name.endswith(".c") and name.startswith(FOLDERS)]
    includes = [f"-I{folder}" for folder in (*FOLDERS, "port")]
    command = ["avr-gcc", *CHECKED, "-ffreestanding", "-fsyntax-only", *includes, *sources]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
