"""The examples that ship, on each chip family: read once, and built once a compiler.

An example is taken as its file has it on the family that it names. On the other one it is soldered
anew, line by line, to pins of the bare chip, and likewise on other controllers that have as many
pins.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from matrixgen.boards import Mounted, Profile, builtin_profile, load_diode, load_profile
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import FAMILIES, CompilerKind
from matrixgen.model import PINS_OF, Design, Keyboard, Mounting, Word
from matrixgen.record import changed
from matrixgen.source import read_design
from matrixgen.toolchain import Image
from tests.amounts import IS_LONG
from tests.emulators import images
from tests.emulators.avr import board as avr
from tests.emulators.rp2040 import board as rp2040
from tests.emulators.usb_host import Transport

FOLDER = Path(__file__).parents[2] / "examples"
NAMES = tuple(sorted(path.stem for path in FOLDER.glob("*/*.keys")))
COMPILERS: tuple[CompilerKind, CompilerKind] = ("gcc", "clang")
TURNS_A_MS = 2 if IS_LONG else 1.5
"""How many turns of its main loop the RP2040's core is given each millisecond, to save time."""

BARE_CHIPS = {"avr": "atmega32u4", "rp2040": "rp2040"}


class Board(Transport, Protocol):
    """A keyboard on an emulated chip: its end of the cable, its switches and contacts of knobs."""

    def close_key(self, name: str) -> None: ...

    def open_key(self, name: str) -> None: ...

    def ground(self, pin: int, grounded: bool) -> None: ...


@dataclass(frozen=True)
class Example:
    path: Path
    mounted: Mounted

    @property
    def keyboard(self) -> Keyboard:
        return self.mounted.keyboard

    @property
    def profile(self) -> Profile:
        return self.mounted.profile


@functools.cache
def example(name: str, family: str | None = None) -> Example:
    """Return an example on a family; without one, on the first controller that it names."""
    path = FOLDER / name / f"{name}.keys"
    design, findings = read_design(path)
    assert design is not None, findings
    diodes = design.keyboard.wiring.diodes
    diode, _ = load_diode(diodes.part if diodes else None, path.parent)
    for mounting in design.mountings:
        profile, of_profile = load_profile(mounting.controller, path.parent)
        assert profile is not None, of_profile
        if family in (None, profile.port):
            return Example(path, Mounted(design.keyboard, mounting, profile, diode))
    assert family is not None
    return Example(path, _soldered_anew(design, BARE_CHIPS[family]))


def on_controller(name: str, profile: Profile) -> Example | None:
    """Return an example on a controller; None where it has too few pins."""
    path = FOLDER / name / f"{name}.keys"
    design, findings = read_design(path)
    assert design is not None, findings
    if len(design.keyboard.wiring.lines) + design.keyboard.component_pins > len(
        profile.usable_pins
    ):
        return None
    return Example(path, soldered_to(design, profile))


def _soldered_anew(design: Design, chip: str) -> Mounted:
    profile = builtin_profile(chip)
    assert profile is not None
    return soldered_to(design, profile)


def soldered_to(design: Design, profile: Profile) -> Mounted:
    """Return a keyboard on a controller, its lines on the usable pins in order, then the rest."""
    assert profile.family_record is not None
    keyboard, usable = design.keyboard, (pin.name for pin in profile.usable_pins)
    names = [line.name for line in keyboard.wiring.lines]
    pins = {name.text: Word(next(usable), name.span) for name in names}
    legs = {
        one.called: tuple(Word(next(usable), one.span) for _ in range(PINS_OF[one.kind]))
        for one in keyboard.wiring.components
    }
    if not profile.family_record.double_reset:
        loader = changed(keyboard.boot_loader, double_reset=None)
        keyboard = changed(keyboard, boot_loader=loader)
    return Mounted(keyboard, Mounting(Word(profile.name, design.head), pins, legs), profile)


def builds() -> Iterator[tuple[str, str, CompilerKind]]:
    """Yield what is run on chips: an example, a family, a compiler.

    Each example on its own family with one compiler, every fifth one on the other family too; in
    the long run all of them on both, with both.
    """
    for place, name in enumerate(NAMES):
        for which, family in enumerate(sorted(FAMILIES)):
            if IS_LONG or place % 5 == 0 or family == example(name).profile.port:
                yield from (
                    (name, family, kind)
                    for number, kind in enumerate(COMPILERS)
                    if IS_LONG or number == (place + which) % 2
                )


BUILDS = tuple(builds())


@functools.cache
def image(name: str, kind: CompilerKind, family: str | None = None) -> Image:
    shipped = example(name, family)
    view = firmware_view(shipped.mounted, str(shipped.path))
    return images.compiled(firmware_tree(view), shipped.profile, kind)


@contextmanager
def board(
    name: str, kind: CompilerKind, family: str, turns_a_ms: float = TURNS_A_MS
) -> Iterator[Board]:
    """Return an example's firmware running on its chip, with its matrix soldered to the pins."""
    shipped = example(name, family)
    made = image(name, kind, family)
    if family == "avr":
        with avr.board(made, shipped.mounted) as chip:
            yield chip
    else:
        with rp2040.board(made, shipped.mounted) as slow_chip:
            _, turn = slow_chip.scan_cycles(shipped.mounted)
            slow_chip.share = min(1, turns_a_ms * turn / slow_chip.cycles_per_ms)
            yield slow_chip
