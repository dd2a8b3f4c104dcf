"""The table that the tests of the command load at."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from serial.tools import list_ports

from matrixgen.load import avr109, drives, keyboards, patience
from tests.load.drive import FolderDrive
from tests.load.table import Table, built_once


@pytest.fixture
def table(tmp_path, capsys, monkeypatch) -> Iterator[Table]:
    monkeypatch.chdir(tmp_path)
    made = Table(tmp_path, capsys, monkeypatch)
    monkeypatch.setattr(list_ports, "comports", lambda: list(made.ports))
    monkeypatch.setattr(drives, "MOUNTS", made.mounts)
    monkeypatch.setattr(keyboards, "DEVICES", tmp_path / "sys")
    monkeypatch.setattr("matrixgen.jobs.load.build_mounted", built_once)
    monkeypatch.setattr("matrixgen.cli.build.build_mounted", built_once)
    for name in ("APPEARS", "RESTARTS", "OPENS", "GOES", "TYPES"):
        monkeypatch.setattr(patience, name, 0.4)
    monkeypatch.setattr(patience, "LOOKS", 0.01)
    monkeypatch.setattr(avr109, "NAME_SECONDS", 0.3)
    yield made
    FolderDrive.end_all()
