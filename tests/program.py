"""A run of the program inside the test's process: what it printed and its exit status."""

from __future__ import annotations

import io
import sys
from dataclasses import dataclass
from pathlib import Path

from matrixgen.cli.main import main
from tests.texts import GOOD


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
