"""The examples that ship, read once and built once a compiler."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from pathlib import Path

from matrixgen.boards import Profile, load_profile
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.render import firmware_tree
from matrixgen.model import Keyboard
from matrixgen.source import read_keyboard
from matrixgen.toolchain import Image, build, find_compiler
from matrixgen.toolchain.compilers import CompilerKind

FOLDER = Path(__file__).parents[2] / "examples"
NAMES = tuple(sorted(path.stem for path in FOLDER.glob("*/*.keys")))
COMPILERS: tuple[CompilerKind, CompilerKind] = ("gcc", "clang")


@dataclass(frozen=True)
class Example:
    path: Path
    keyboard: Keyboard
    profile: Profile


@functools.cache
def example(name: str) -> Example:
    path = FOLDER / name / f"{name}.keys"
    keyboard, findings = read_keyboard(str(path))
    assert keyboard is not None, findings
    profile, of_profile = load_profile(keyboard.controller, path.parent)
    assert profile is not None, of_profile
    return Example(path, keyboard, profile)


@functools.cache
def image(name: str, kind: CompilerKind) -> Image:
    shipped = example(name)
    compiler = find_compiler(kind)
    assert compiler is not None, f"the test command installs {kind}"
    view = firmware_view(shipped.keyboard, shipped.profile)
    made = build(firmware_tree(view), view.chip, compiler)
    assert isinstance(made, Image), made.output
    return made
