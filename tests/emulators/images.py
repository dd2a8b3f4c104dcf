"""A mounted keyboard's firmware: its tree, and the image that a compiler makes of it."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from matrixgen.boards import Mounted, Profile
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import FAMILIES, CompilerKind
from matrixgen.toolchain import (
    CompileFailure,
    Compiler,
    Image,
    compile_tree,
    find_compiler,
    read_image,
)
from tests.emulators.keyboards import SOURCE
from tests.made_once import key_of, made_once


def tree_of(mounted: Mounted) -> dict[str, bytes]:
    return firmware_tree(firmware_view(mounted, SOURCE))


def compiled(tree: Mapping[str, bytes], profile: Profile, kind: CompilerKind) -> Image:
    """Compile and link a firmware tree for a controller."""
    compiler = find_compiler(kind, FAMILIES[profile.port or ""])
    assert compiler is not None, f"the tests need {kind} for {profile.chip}"
    image = compiled_once(tree, profile.chip.lower(), compiler)
    assert isinstance(image, Image), image.output
    return image


class Refused(Exception):
    """A tree that does not compile."""


def compiled_once(
    tree: Mapping[str, bytes], chip: str, compiler: Compiler
) -> Image | CompileFailure:
    """Return what `compile_tree` does; an image is made once for all the workers of a run."""

    def elf() -> bytes:
        made = compile_tree(tree, chip, compiler)
        if isinstance(made, CompileFailure):
            raise Refused(made)
        return made.elf

    key = key_of(tree, compiler.title, *compiler.call(chip, (), ""))
    try:
        return read_image(made_once(key, elf), compiler.family)
    except Refused as refused:
        failure: CompileFailure = refused.args[0]
        return failure


def builds_compile_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let what the program builds from now on be compiled once, where that is not what is tried."""
    monkeypatch.setattr("matrixgen.jobs.images.compile_tree", compiled_once)


def image_of(mounted: Mounted, kind: CompilerKind) -> Image:
    return compiled(tree_of(mounted), mounted.profile, kind)
