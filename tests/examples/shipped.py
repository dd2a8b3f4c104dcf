"""The examples that ship, on each chip family: read once, and built once a compiler.

An example is taken as its file has it on the family that it names. On the other one it is soldered
anew, line by line, to pins of the bare chip, so that every example is tried on every family.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from matrixgen.boards import Profile, builtin_profile, load_profile
from matrixgen.boards.abilities import abilities
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.render import firmware_tree
from matrixgen.model import Keyboard, Line, Word, variants
from matrixgen.model.record import changed
from matrixgen.source import read_keyboard
from matrixgen.toolchain import FAMILIES, CompilerKind, Image, build, find_compiler
from tests.emulators.avr import board as avr
from tests.emulators.rp2040 import board as rp2040
from tests.emulators.usb_host import Transport

FOLDER = Path(__file__).parents[2] / "examples"
NAMES = tuple(sorted(path.stem for path in FOLDER.glob("*/*.keys")))
COMPILERS: tuple[CompilerKind, CompilerKind] = ("gcc", "clang")
TURNS_A_MS = 2
"""How many turns of its main loop the RP2040's core is given each millisecond, to save time."""

BARE_CHIPS = {"avr": "atmega32u4", "rp2040": "rp2040"}


class Board(Transport, Protocol):
    """A keyboard on an emulated chip: its end of the cable, and its switches."""

    def close_key(self, name: str) -> None: ...

    def open_key(self, name: str) -> None: ...


@dataclass(frozen=True)
class Example:
    path: Path
    keyboard: Keyboard
    profile: Profile


@functools.cache
def example(name: str, family: str | None = None) -> Example:
    """Return an example on a family; without one, on the first controller that it names."""
    path = FOLDER / name / f"{name}.keys"
    keyboard, findings = read_keyboard(str(path))
    assert keyboard is not None, findings
    for one in variants(keyboard):
        profile, of_profile = load_profile(one.controller, path.parent)
        assert profile is not None, of_profile
        if family in (None, profile.port):
            return Example(path, one, profile)
    assert family is not None
    return Example(path, *_soldered_anew(keyboard, BARE_CHIPS[family]))


def _soldered_anew(keyboard: Keyboard, chip: str) -> tuple[Keyboard, Profile]:
    profile = builtin_profile(chip)
    assert profile is not None
    pins = (pin.name for pin in profile.usable_pins)
    lines = tuple(_onto(line, pins) for line in keyboard.wiring.lines)
    controller = Word(chip, keyboard.controller.span)
    wiring = changed(keyboard.wiring, lines=lines)
    loader = keyboard.boot_loader
    if not abilities(profile).double_reset:
        loader = changed(loader, double_reset=None)
    made = changed(keyboard, controller=controller, wiring=wiring, boot_loader=loader)
    return made, profile


def _onto(line: Line, pins: Iterator[str]) -> Line:
    pin = Word(next(pins), line.name.span)
    return changed(line, pin=pin, pins=(pin,))


@functools.cache
def image(name: str, kind: CompilerKind, family: str | None = None) -> Image:
    shipped = example(name, family)
    compiler = find_compiler(kind, FAMILIES[shipped.profile.port or ""])
    assert compiler is not None, f"the test command installs {kind}"
    view = firmware_view(shipped.keyboard, shipped.profile)
    made = build(firmware_tree(view), view.chip, compiler)
    assert isinstance(made, Image), made.output
    return made


@contextmanager
def board(name: str, kind: CompilerKind, family: str) -> Iterator[Board]:
    """Return an example's firmware running on its chip, with its matrix soldered to the pins."""
    shipped = example(name, family)
    made = image(name, kind, family)
    if family == "avr":
        with avr.board(made, shipped.keyboard, shipped.profile) as chip:
            yield chip
    else:
        with rp2040.board(made, shipped.keyboard, shipped.profile) as slow_chip:
            _, turn = slow_chip.scan_cycles(shipped.keyboard, shipped.profile)
            slow_chip.share = min(1, TURNS_A_MS * turn / slow_chip.cycles_per_ms)
            yield slow_chip
