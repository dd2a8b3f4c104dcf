"""From a firmware tree to the image files of a build, measured against their controller."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from matrixgen.boards import Profile
from matrixgen.emit.manifest import ImageFacts
from matrixgen.model import Diagnostic, Keyboard, Note, Problem
from matrixgen.toolchain import (
    Budget,
    BuildFailure,
    Compiler,
    Family,
    Image,
    ImageKind,
    Memory,
    build,
    find_compiler,
    overruns,
    to_hex,
    to_uf2,
)
from matrixgen.toolchain.problems import image_over_flash, variables_over_ram

Wanted = Literal["gcc", "clang", "none"] | None
"""The compiler that the user asks for; None is the first at hand, "none" is sources only."""

OVERRUN_PROBLEMS: dict[Memory, Problem] = {
    "flash": image_over_flash.PROBLEM,
    "RAM": variables_over_ram.PROBLEM,
}


class CompilerMissing(Exception):
    """The compiler that the user asked for is not on this machine; `help` says how to get it."""

    def __init__(self, family: Family, kind: str) -> None:
        gcc = f"install {family.package}, or leave --compiler out"
        self.help = {"gcc": gcc, "clang": '`pip install "matrixgen[compiler]"`'}[kind]
        name = family.gcc if kind == "gcc" else "Clang from the package ziglang"
        super().__init__(f"there is no {name} on this machine")


class CompilerRefused(Exception):
    """The compiler would not have a firmware that we wrote: a mistake of ours, or of its own."""

    def __init__(self, failure: BuildFailure) -> None:
        super().__init__(failure.compiler.title)
        self.failure = failure


def compiler_for(family: Family, wanted: Wanted) -> Compiler | None:
    """Return the compiler that is wanted, or None for sources only.

    Raises `CompilerMissing` where a certain one is wanted and not there.
    """
    if wanted == "none":
        return None
    found = find_compiler(wanted, family)
    if found is None and wanted is not None:
        raise CompilerMissing(family, wanted)
    return found


def compiled(
    tree: Mapping[str, bytes], keyboard: Keyboard, profile: Profile, compiler: Compiler
) -> Image | tuple[Diagnostic, ...]:
    """Return the image of a firmware tree, or a finding for each memory that it overruns.

    Raises `CompilerRefused` where the compiler fails for another reason, and `OSError`.
    """
    made = build(tree, profile.chip.lower(), compiler)
    if isinstance(made, Image):
        return _overrun_findings(made, keyboard, profile) or made
    if not made.overflows:
        raise CompilerRefused(made)
    name = profile.name
    return tuple(
        _overrun(memory, keyboard, f"more {memory} than `{name}` has at all")
        for memory in made.overflows
    )


def image_files(image: Image, name: str) -> dict[str, bytes]:
    """Return the image in each form that its family loads, the usual one first."""
    return {f"{name}.{kind}": _form(image, kind) for kind in image.family.images}


def _form(image: Image, kind: ImageKind) -> bytes:
    return to_uf2(image) if kind == "uf2" else to_hex(image).encode()


def image_facts(
    image: Image, files: tuple[str, ...], compiler: Compiler, profile: Profile
) -> ImageFacts:
    """Return what the manifest says of an image."""
    budget = _budget(image.family, profile)
    title = compiler.title
    return ImageFacts(files, title, image.flash_used, budget.flash, image.ram_used, budget.ram)


def _overrun_findings(image: Image, keyboard: Keyboard, profile: Profile) -> tuple[Diagnostic, ...]:
    """Return a finding for each memory that the image needs more of than it may take."""
    return tuple(
        _overrun(
            over.memory,
            keyboard,
            f"{over.used:,} bytes of {over.memory}, "
            f"and `{profile.name}` has {over.available:,} for it",
        )
        for over in overruns(image, _budget(image.family, profile))
    )


def _overrun(memory: Memory, keyboard: Keyboard, needed: str) -> Diagnostic:
    return OVERRUN_PROBLEMS[memory].at(
        keyboard.controller.span,
        f"the firmware needs {needed}",
        notes=[Note(f"{len(keyboard.keys)} keys, {len(keyboard.layers)} layers")],
    )


def _budget(family: Family, profile: Profile) -> Budget:
    return Budget.of(family, profile.flash_bytes, profile.boot_loader_bytes, profile.ram_bytes)
