"""The bench's own firmware on an emulated chip, its serial port bridged to a pseudo-terminal.

The programs open that as any port. A pseudo-terminal has no modem lines, so that nothing is told
until the program asks with `?`.

Time passes on the chip where something moved or was said, and hardly otherwise: all that it says of
one move is handed on at once, so that a slow emulator or a busy computer makes no half presses.
"""

from __future__ import annotations

import functools
import os
import select
import threading
from collections.abc import Mapping
from pathlib import Path

from matrixgen.boards import Profile
from matrixgen.emit.bench_tree import bench_tree
from matrixgen.emit.bench_view import BenchView, bench_view
from matrixgen.families import FAMILIES, CompilerKind
from matrixgen.toolchain import Image
from tests.bench_port.stand_in import Knob
from tests.emulators.avr.board import AvrBoard, Conduction, conduction_paths, pin_number
from tests.emulators.images import compiled
from tests.emulators.keyboards import profile
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.serial_host import SerialHost
from tests.examples.shipped import Example
from tests.firmware.turning import contacts_at
from tests.pseudo_port import PseudoPort

Paths = Mapping[str, tuple[Conduction, ...]]
SEEN_MS = 25
"""Longer than the bench needs to tell a change, also where its core has but a share of the time."""

IDLE_S = 0.02
"""How often one millisecond passes on the chip while nobody does anything."""

RP2040_SHARE = 0.25
"""Its bench looks at all pins in 2 ms, so that in 8 ms is enough: a change is seen within one look,
lasts for 6 ms, and is told within another one."""

ALWAYS = "always closed"
"""The switch of a short: soldered like the others, and never open."""


def paths_of(example: Example) -> dict[str, tuple[Conduction, ...]]:
    """Return which pins each key of an example joins, and which way."""
    return dict(conduction_paths(example.mounted))


@functools.cache
def view_of(controller: str) -> BenchView:
    """Return what a built-in controller's bench firmware is made from."""
    known = profile(controller)
    return bench_view(known, FAMILIES[known.port or ""])


@functools.cache
def built(controller: str, kind: CompilerKind) -> Image:
    """Return the bench firmware of a built-in controller."""
    return compiled(bench_tree(view_of(controller)), profile(controller), kind)


def started(known: Profile, image: Image) -> AvrBoard | Rp2040Board:
    """Return a chip that runs an image, from power-on."""
    return Rp2040Board(image.flash) if known.port == "rp2040" else AvrBoard(image, known)


class BenchOnChip:
    """A board on the bench; `path` is the port to open."""

    def __init__(
        self, example: Example, paths: Paths, knobs: Mapping[str, Knob] | None = None
    ) -> None:
        known = example.profile
        self._chip, self._paths = started(known, built(known.name, "gcc")), paths
        self._chip.solder(paths)
        if ALWAYS in paths:
            self._chip.close_key(ALWAYS)
        self._host = SerialHost(self._chip)
        self._host.plug_in()
        if isinstance(self._chip, Rp2040Board):
            self._chip.share = RP2040_SHARE
        self._down: str | None = None
        self.knobs = dict(knobs or {})
        self.port = PseudoPort()
        self._ours, self.path = self.port.ours, self.port.path
        self._lock, self._ends = threading.Lock(), threading.Event()
        self._thread = threading.Thread(target=self._answer, daemon=True)

    def __enter__(self) -> BenchOnChip:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ends.set()
        self._thread.join()
        self._chip.close()
        self.port.close()

    def hold(self, pin: int) -> None:
        """Solder the supply to a pin."""
        with self._lock:
            self._chip.hold(pin)
            self._hear(SEEN_MS)

    def press(self, key: str) -> bool:
        """Press a key and keep it down; return whether it joins any pins."""
        self._down = key
        with self._lock:
            self._chip.close_key(key)
            self._hear(SEEN_MS)
        return bool(self._paths[key])

    def turn(self, knob: str, states: int) -> None:
        """Turn a knob by so many states, to the right, or below 0 to the left."""
        turned = self.knobs[knob]
        for _ in range(abs(states)):
            turned.place += 1 if states > 0 else -1
            with self._lock:
                for contact, pin in enumerate(turned.legs):
                    closed = bool(contacts_at(turned.place) >> contact & 1)
                    self._chip.ground(pin_number(pin or ""), closed)
                self._hear(SEEN_MS)

    def let_go(self) -> None:
        """Let go of the key that is down."""
        if self._down is not None:
            with self._lock:
                self._chip.open_key(self._down)
                self._hear(SEEN_MS)
            self._down = None

    def _hear(self, milliseconds: float) -> list[str]:
        lines = self._host.hear(milliseconds)
        self.port.say(*lines)
        return lines

    def _answer(self) -> None:
        while not self._ends.is_set():
            asks = select.select([self._ours], [], [], IDLE_S)[0]
            with self._lock:
                if asks:
                    self._host.say(os.read(self._ours, 100))
                    self.port.say(*self._host.all_until_ready(), "ready")
                elif late := self._hear(1):
                    raise AssertionError(f"said when nothing moved: {late}")


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
