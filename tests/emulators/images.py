"""A mounted keyboard's firmware: its tree, and the image that a compiler makes of it."""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Mapping
from pathlib import Path

from matrixgen.boards import Mounted, Profile
from matrixgen.emit.firmware_tree import firmware_tree, whole_tree
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
from matrixgen.toolchain.compiling import environment, sources_of, write_tree
from tests.emulators.keyboards import SOURCE
from tests.made_once import key_of, made_once
from tests.objects import compiled_objects


def tree_of(mounted: Mounted) -> dict[str, bytes]:
    return firmware_tree(firmware_view(mounted, SOURCE))


def whole_tree_of(mounted: Mounted) -> dict[str, bytes]:
    return whole_tree(firmware_view(mounted, SOURCE))


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
        made = compiled_by_parts(tree, chip, compiler)
        if made is not None:
            return made
        whole = compile_tree(tree, chip, compiler)
        if isinstance(whole, CompileFailure):
            raise Refused(whole)
        return whole.elf

    key = key_of(tree, compiler.title, *compiler.call(chip, (), ""))
    try:
        return read_image(made_once(key, elf), compiler.family)
    except Refused as refused:
        failure: CompileFailure = refused.args[0]
        return failure


def compiled_by_parts(tree: Mapping[str, bytes], chip: str, compiler: Compiler) -> bytes | None:
    """Return the ELF file, of objects of which most were made before.

    None where that cannot be, as a compiler refuses something.
    """
    call = [*compiler.command, *compiler.family.flags(compiler.kind, chip)]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_tree(tree, folder)
        try:
            objects = compiled_objects(call, tree, sources_of(tree), folder)
            linked = [*call, *objects, "-o", "firmware.elf"]
            subprocess.run(
                linked, cwd=folder, env=environment(folder), check=True, capture_output=True
            )
        except subprocess.CalledProcessError:
            return None
        return (folder / "firmware.elf").read_bytes()


def image_of(mounted: Mounted, kind: CompilerKind) -> Image:
    return compiled(tree_of(mounted), mounted.profile, kind)
