"""The table that the tests of the command load at, and time that does not hang on the machine."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from serial.tools import list_ports

from matrixgen.load import avr109, copying, drives, keyboards, link, patience
from matrixgen.ports import opening
from tests.load.clock import Clock
from tests.load.drive import FolderDrive
from tests.load.loader import OnTerminal
from tests.load.table import Table, built_once

ANSWERS_S = 60.0
"""How long an answer through a pseudo-terminal is waited for, however busy the machine is."""


@pytest.fixture(autouse=True)
def clock(monkeypatch) -> Clock:
    """Let what comes and goes be waited for by a clock that takes no time."""
    made = Clock()
    for module in (avr109, copying, opening, patience):
        monkeypatch.setattr(module, "time", made)
    return made


@pytest.fixture(autouse=True)
def _patient(monkeypatch) -> None:
    """Let an answer come as late as it will, and nobody wait for a chip that never answers."""
    real = link.Link.read

    def read(self: link.Link, count: int, seconds: float) -> bytes:
        if self._port.port in OnTerminal.mute_paths:
            return b""
        return real(self, count, ANSWERS_S if seconds > link.QUIET_SECONDS else seconds)

    monkeypatch.setattr(link.Link, "read", read)


@pytest.fixture
def table(tmp_path, capsys, monkeypatch, clock) -> Iterator[Table]:
    monkeypatch.chdir(tmp_path)
    made = Table(tmp_path, capsys, monkeypatch, clock)
    monkeypatch.setattr(list_ports, "comports", lambda: list(made.ports))
    monkeypatch.setattr(drives, "MOUNTS", made.mounts)
    monkeypatch.setattr(keyboards, "DEVICES", tmp_path / "sys")
    monkeypatch.setattr("matrixgen.jobs.load.build_mounted", built_once)
    monkeypatch.setattr("matrixgen.cli.build.build_mounted", built_once)
    monkeypatch.setattr(os, "fsync", lambda handle: FolderDrive.all_look())
    yield made
    FolderDrive.forget_all()
