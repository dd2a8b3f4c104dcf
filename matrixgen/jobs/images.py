"""From a firmware tree to the image files of a build, measured against their controller."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from matrixgen.boards import Mounted, Profile
from matrixgen.emit.manifest import ImageSummary
from matrixgen.failure import Failure
from matrixgen.families import CompilerKind, Family, ImageKind
from matrixgen.jobs.problems import PROBLEMS
from matrixgen.model import Diagnostic, Note
from matrixgen.toolchain import (
    Budget,
    CompileFailure,
    Compiler,
    Image,
    Memory,
    compile_tree,
    find_compiler,
    overruns,
    to_hex,
    to_uf2,
)

Wanted = CompilerKind | Literal["none"] | None
"""The compiler that the user asks for; None is the first at hand, "none" is sources alone."""

Overruns = tuple[tuple[Memory, str], ...]
"""Each memory that there is too little of, and how much is needed, in words."""

OVERRUN_SLUGS: dict[Memory, str] = {"flash": "image-over-flash", "RAM": "variables-over-ram"}


class CompilerMissing(Failure):
    """There is no compiler on this machine, or not the one that is asked for; how to get it."""


class CompilerRefused(Exception):
    """The compiler would not have a firmware that we wrote: a mistake of ours, or of its own."""

    def __init__(self, failure: CompileFailure) -> None:
        super().__init__(failure.compiler.title)
        self.failure = failure


def compiler_for(family: Family, wanted: Wanted) -> Compiler | None:
    """Return the compiler that is wanted, None for sources alone; raises `CompilerMissing`."""
    if wanted == "none":
        return None
    if found := find_compiler(wanted, family):
        return found
    raise _missing(family, wanted)


def _missing(family: Family, kind: CompilerKind | None) -> CompilerMissing:
    name = {"gcc": family.gcc, "clang": "Clang from the package ziglang", None: "compiler"}
    text = f"no image was made: there is no {name[kind]} on this computer"
    by_pip = '`pip install "matrixgen[compiler]"` installs Clang'
    by_system = f"install {family.package}"
    helps = {
        "gcc": (f"{by_system}, or leave out --compiler",),
        "clang": (by_pip,),
        None: (by_pip, f"or {by_system}"),
    }
    return CompilerMissing(text, *helps[kind])


def compiled(
    tree: Mapping[str, bytes], mounted: Mounted, compiler: Compiler
) -> Image | tuple[Diagnostic, ...]:
    """Return the image of a firmware tree, or a finding for each memory that it overruns.

    Raises `CompilerRefused` where the compiler fails for another reason, and `OSError`.
    """
    made = fitted(tree, mounted.profile, compiler)
    if isinstance(made, Image):
        return made
    return tuple(_overrun(memory, mounted, needed) for memory, needed in made)


def fitted(tree: Mapping[str, bytes], profile: Profile, compiler: Compiler) -> Image | Overruns:
    """Return the image of a firmware tree, or what it needs too much of.

    Raises `CompilerRefused` where the compiler fails for another reason, and `OSError`.
    """
    made = compile_tree(tree, profile.chip.lower(), compiler)
    if isinstance(made, Image):
        return _overruns(made, profile) or made
    if not made.overflows:
        raise CompilerRefused(made)
    return tuple(
        (memory, f"more {memory} than `{profile.name}` has at all") for memory in made.overflows
    )


def image_files(
    image: Image, name: str, compiler: Compiler, profile: Profile
) -> tuple[dict[str, bytes], ImageSummary]:
    """Return the image in each form that its family loads, the usual one first, and its sizes."""
    files = {f"{name}.{kind}": _form(image, kind) for kind in image.family.images}
    budget = Budget.of(image.family, profile)
    return files, ImageSummary(
        files=tuple(files),
        compiler=compiler.title,
        flash_used=image.flash_used,
        flash_available=budget.flash,
        ram_used=image.ram_used,
        ram_available=budget.ram,
    )


def _form(image: Image, kind: ImageKind) -> bytes:
    return to_uf2(image) if kind == "uf2" else to_hex(image).encode()


def _overruns(image: Image, profile: Profile) -> Overruns:
    """Return each memory that the image needs more of than it may take."""
    return tuple(
        (
            over.memory,
            f"{over.used:,} bytes of {over.memory}, "
            f"and `{profile.name}` has {over.available:,} for it",
        )
        for over in overruns(image, Budget.of(image.family, profile))
    )


def _overrun(memory: Memory, mounted: Mounted, needed: str) -> Diagnostic:
    keyboard = mounted.keyboard
    return PROBLEMS[OVERRUN_SLUGS[memory]].at(
        mounted.controller.span,
        f"the firmware needs {needed}",
        notes=[Note(f"{len(keyboard.keys)} keys, {len(keyboard.layers)} layers")],
    )
