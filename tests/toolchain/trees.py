"""Firmware trees and images for the tests of this folder."""

from __future__ import annotations

import functools
from pathlib import Path

from matrixgen.boards import Profile
from matrixgen.families import FAMILIES, CompilerKind, Family
from matrixgen.toolchain import Compiler, Image, find_compiler
from tests.emulators.images import compiled_once, tree_of
from tests.emulators.keyboards import profile, square

CHIPS = ("atmega16u4", "atmega32u4", "at90usb162", "at90usb646", "at90usb1286", "rp2040")
COMPILERS: tuple[CompilerKind, ...] = ("gcc", "clang")
BINUTILS = {"avr": "avr", "rp2040": "arm-none-eabi"}
"""The name before `-objcopy` and `-size`, by family."""


def family_of(chip: str) -> Family:
    known: Profile = profile(chip)
    return FAMILIES[known.port or ""]


@functools.cache
def tree(chip: str) -> dict[str, bytes]:
    return tree_of(square(2, controller=chip))


def compiler(kind: CompilerKind, chip: str = "atmega32u4") -> Compiler:
    found = find_compiler(kind, family_of(chip))
    assert found is not None, f"the tests need {kind} for {chip}"
    return found


@functools.cache
def image(chip: str, kind: CompilerKind) -> Image:
    made = compiled_once(tree(chip), chip, compiler(kind, chip))
    assert isinstance(made, Image), made.output
    return made


def write(files: dict[str, bytes], folder: Path) -> Path:
    for name, content in files.items():
        place = folder / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content)
    return folder
