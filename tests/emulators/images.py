"""A mounted keyboard's firmware: its tree, and the image that a compiler makes of it."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.boards import Mounted, Profile
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import FAMILIES, CompilerKind
from matrixgen.toolchain import Image, compile_tree, find_compiler
from tests.emulators.keyboards import SOURCE


def tree_of(mounted: Mounted) -> dict[str, bytes]:
    return firmware_tree(firmware_view(mounted, SOURCE))


def compiled(tree: Mapping[str, bytes], profile: Profile, kind: CompilerKind) -> Image:
    """Compile and link a firmware tree for a controller."""
    compiler = find_compiler(kind, FAMILIES[profile.port or ""])
    assert compiler is not None, f"the tests need {kind} for {profile.chip}"
    image = compile_tree(tree, profile.chip.lower(), compiler)
    assert isinstance(image, Image), image.output
    return image


def image_of(mounted: Mounted, kind: CompilerKind) -> Image:
    return compiled(tree_of(mounted), mounted.profile, kind)
