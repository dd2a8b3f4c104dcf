"""A table to load at: what is plugged in, who sits there, and the program."""

from __future__ import annotations

import os
from pathlib import Path
from types import SimpleNamespace

from matrixgen.boards import Mounted
from matrixgen.cli.main import main
from matrixgen.jobs import build
from matrixgen.jobs.build import Built
from tests.load.clock import Clock
from tests.load.loader import Chip, OnTerminal
from tests.load.stick_images import hex_of, image_of
from tests.texts import good_on

OTHER, BENCH = (0x1234, 0x0005), (0x1209, 0x0002)
"""Ids of a port that is nobody's, and of the bench firmware's (page 1209 of pid.codes)."""

STICK = good_on("stick-32u4", "PD1", "PD0", "PD4")
PICO = good_on("rp2040-40pin", "GP2", "GP3", "GP4")


def _mount_line(path: Path) -> str:
    """A line of /proc/self/mounts (proc(5)): blanks in a path are written in octal."""
    return f"{os.devnull} {str(path).replace(' ', chr(92) + '040')} vfat rw 0 0"


class Table:
    """A table with nothing plugged in, a maker who answers, and the program."""

    def __init__(self, folder: Path, capsys, monkeypatch, clock: Clock) -> None:
        self.folder, self._capsys, self._monkeypatch = folder, capsys, monkeypatch
        self.later = clock.later
        self.ports: list[SimpleNamespace] = []
        self.mounts = folder / "mounts"
        self.asked: list[str] = []
        self.mount()
        self.answers("y")  # the only port there is, is the board's

    def mount(self, *paths: Path) -> None:
        lines = [_mount_line(path) for path in paths]
        self.mounts.write_text("\n".join(["proc /proc proc rw 0 0", *lines, ""]))

    def plug(
        self, *terminals: OnTerminal | str, product: str = "Stick", ids: tuple[int, int] = OTHER
    ) -> None:
        paths = [one if isinstance(one, str) else one.path for one in terminals]
        self.ports += [
            SimpleNamespace(device=path, product=product, description="", vid=ids[0], pid=ids[1])
            for path in paths
        ]

    def plugged(self, chip: Chip) -> Chip:
        """Plug a chip in, and return it."""
        self.plug(OnTerminal(chip))
        return chip

    def answers(self, *words: str) -> None:
        """Let a maker sit there who types these words, or nobody where there are none."""
        left = list(words)

        def answer(question: str) -> str:
            self.asked.append(question)
            return left.pop(0)

        self._monkeypatch.setattr("builtins.input", answer)
        there = SimpleNamespace(isatty=lambda: bool(left))
        self._monkeypatch.setattr("sys.stdin", there)

    def nobody(self) -> None:
        self._monkeypatch.setattr("sys.stdin", SimpleNamespace(isatty=lambda: False))

    def write(self, name: str, text: str | bytes) -> str:
        data = text.encode() if isinstance(text, str) else text
        (self.folder / name).write_bytes(data)
        return name

    def load(self, *words: str) -> tuple[int, str, str]:
        self._capsys.readouterr()
        status = main(["load", *words])
        return (status, *self._capsys.readouterr())

    def load_image(self, *words: str) -> tuple[int, str, str]:
        """Load 300 bytes into a stick."""
        image = self.write("x.hex", hex_of(image_of(300)))
        return self.load(image, "--controller", "stick-32u4", *words)


_KEPT: dict[tuple[object, ...], Built] = {}


def built_once(mounted: Mounted, source, name: str, wanted, **options) -> Built:
    """Build as the program does, but each file once: that is what takes long here."""
    key = (source.text, mounted.profile.name, name, wanted)
    if key not in _KEPT:
        _KEPT[key] = build.build_mounted(mounted, source, name, wanted, **options)
    return _KEPT[key]
