"""A run of the program inside the test's process: what it printed and its exit status."""

from __future__ import annotations

import functools
import io
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from matrixgen.cli.main import main
from matrixgen.fit import search, shapes
from matrixgen.fit.plan import Plan
from matrixgen.jobs import fit

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


@dataclass(frozen=True)
class Ran:
    status: int
    out: str
    err: str


class Program:
    """The program in a folder of its own, which is also the current folder."""

    def __init__(self, folder: Path, capsys, monkeypatch) -> None:
        self.folder = folder
        self._capsys, self._monkeypatch = capsys, monkeypatch

    def write(self, name: str, text: str | bytes = GOOD) -> str:
        data = text.encode() if isinstance(text, str) else text
        (self.folder / name).write_bytes(data)
        return name

    def __call__(self, *words: str, stdin: bytes = b"") -> Ran:
        self._monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        self._capsys.readouterr()
        status = main(list(words))
        return Ran(status, *self._capsys.readouterr())


@pytest.fixture
def program(tmp_path, capsys, monkeypatch) -> Program:
    monkeypatch.chdir(tmp_path)
    return Program(tmp_path, capsys, monkeypatch)


@functools.cache
def _laid_out(points, rows, columns, drawn, stages):
    return search.lay_out(Plan(points), rows, columns, drawn=drawn)


@pytest.fixture
def one_search_a_plate(monkeypatch) -> None:
    """Search for a plate's layout once, for all tests that fit it: it is the same each time.

    That it is, `tests/fit/test_layouts.py` asks of the search itself.
    """

    def remembered(plan, rows, columns, *, drawn=(), progress=None):
        return _laid_out(plan.points, rows, columns, tuple(map(tuple, drawn)), search.STAGES)

    monkeypatch.setattr(fit, "lay_out", remembered)
    monkeypatch.setattr(shapes, "lay_out", remembered)
