"""The bench's own firmware on an emulated chip, its serial port bridged to a pseudo-terminal.

The programs open that as any port. A pseudo-terminal has no modem lines, so that nothing is told
until the program asks with `?`.
"""

from __future__ import annotations

import os
import queue
import select
import threading
import time
from collections.abc import Mapping
from pathlib import Path

from matrixgen.emit.bench_tree import bench_tree
from matrixgen.emit.bench_view import bench_view
from matrixgen.families import FAMILIES
from tests.emulators.avr.board import AvrBoard, Conduction, conduction_paths
from tests.emulators.images import compiled
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.serial_host import SerialHost
from tests.examples.shipped import Example
from tests.pseudo_port import PseudoPort

Paths = Mapping[str, tuple[Conduction, ...]]
SEEN_MS = 25
"""Longer than the bench needs to tell a change."""

ALWAYS = "always closed"
"""The switch of a short: soldered like the others, and never open."""


def paths_of(example: Example) -> dict[str, tuple[Conduction, ...]]:
    """Return which pins each key of an example joins, and which way."""
    return dict(conduction_paths(example.mounted))


class BenchOnChip:
    """A board on the bench; `path` is the port to open."""

    def __init__(self, example: Example, paths: Paths) -> None:
        profile = example.profile
        family = FAMILIES[profile.port or ""]
        image = compiled(bench_tree(bench_view(profile, family)), profile, "gcc")
        kind = AvrBoard if profile.port == "avr" else Rp2040Board
        self._chip, self._paths = kind(image, profile), paths
        self._chip.solder(paths)
        if ALWAYS in paths:
            self._chip.close_key(ALWAYS)
        self._moves: queue.Queue[tuple[str, bool]] = queue.Queue()
        self._down: str | None = None
        self._passed_ms = 0
        self._port = PseudoPort()
        self._ours, self.path = self._port.ours, self._port.path
        self._ends = threading.Event()
        self._thread = threading.Thread(target=self._run, daemon=True)

    def __enter__(self) -> BenchOnChip:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ends.set()
        self._thread.join()
        self._chip.close()
        self._port.close()

    def press(self, key: str) -> bool:
        """Press a key and keep it down; return whether it joins any pins."""
        self._down = key
        self._move(key, True)
        return bool(self._paths[key])

    def let_go(self) -> None:
        """Let go of the key that is down."""
        if self._down is not None:
            self._move(self._down, False)
            self._down = None

    def _move(self, key: str, closes: bool) -> None:
        """Move a switch, and let the chip see it, however slow the computer is just now."""
        self._moves.put((key, closes))
        self._moves.join()
        until_ms = self._passed_ms + SEEN_MS
        while self._passed_ms < until_ms and self._thread.is_alive():
            time.sleep(0.002)

    def _run(self) -> None:
        host = SerialHost(self._chip)
        host.plug_in()
        while not self._ends.is_set():
            while not self._moves.empty():
                key, closes = self._moves.get()
                (self._chip.close_key if closes else self._chip.open_key)(key)
                self._moves.task_done()
            if select.select([self._ours], [], [], 0)[0]:
                host.say(os.read(self._ours, 100))
            for line in host.hear(1):
                os.write(self._ours, f"{line}\r\n".encode())
            self._passed_ms += 1


def without(paths: Paths, key: str) -> Paths:
    """Return the board with a joint of a key left cold."""
    return {**paths, key: ()}


def turned(paths: Paths, key: str) -> Paths:
    """Return the board with a key's diode the wrong way round."""
    return {**paths, key: tuple((end, start) for start, end in paths[key])}


def swapped(paths: Paths, one: int, other: int) -> Paths:
    """Return the board with the leads to two pins swapped."""
    swap = {one: other, other: one}
    return {
        key: tuple((swap.get(start, start), swap.get(end, end)) for start, end in pairs)
        for key, pairs in paths.items()
    }


def shorted(paths: Paths, one: int, other: int) -> Paths:
    """Return the board with a blob of solder between two pins."""
    return {**paths, ALWAYS: ((one, other), (other, one))}


def copy_of(example: Example, folder: Path) -> Path:
    """Return a copy of an example's file, to be written to."""
    path = folder / example.path.name
    path.write_bytes(example.path.read_bytes())
    return path
