"""A stranger's repository, and beside it what it must not reach."""

from __future__ import annotations

import json
import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.patience import HANGS_S
from tests.program import Program
from tests.texts import GOOD

SECRET = "hunter2"


class Hangs(BaseException):
    """It waits for ever; nothing that looks for a mistake of its own catches this."""


@contextmanager
def no_hang() -> Iterator[None]:
    """Fail instead of waiting for ever."""

    def wake(*_: object) -> None:
        raise Hangs

    before = signal.signal(signal.SIGALRM, wake)
    signal.alarm(HANGS_S)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


class Stranger(Program):
    """The program inside a repository: `self.folder`, with `outside` beside it."""

    @property
    def outside(self) -> Path:
        return self.folder.parent / "outside"

    def keyboard(self, *, controller: str = "atmega32u4", diodes: str = "1N4148") -> str:
        text = GOOD.replace("atmega32u4", controller).replace("1N4148", diodes)
        return self.write("pad.keys", text)

    def link(self, name: str, to: str | Path) -> str:
        (self.folder / name).parent.mkdir(exist_ok=True)
        (self.folder / name).symlink_to(to)
        return name


@pytest.fixture
def stranger(tmp_path, capsys, monkeypatch) -> Stranger:
    repository, outside = tmp_path / "repository", tmp_path / "outside"
    (repository / ".git").mkdir(parents=True)
    outside.mkdir()
    (repository / ".git" / "config").write_text(f"{SECRET}\n")
    (outside / "secret.txt").write_text(f"{SECRET}\n")
    (outside / "secret.json").write_text(json.dumps({f"key-{SECRET}": SECRET, "name": "x"}))
    os.mkfifo(outside / "pipe")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.chdir(repository)
    return Stranger(repository, capsys, monkeypatch)
