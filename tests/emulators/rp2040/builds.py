"""The RP2040 firmware, built by either compiler for the emulator tests."""

from __future__ import annotations

import functools
from collections.abc import Mapping

from matrixgen.boards import Mounted
from matrixgen.families import CompilerKind
from matrixgen.toolchain import Image
from tests.emulators import images
from tests.emulators.keyboards import profile, square

CONTROLLER = "rp2040"
KINDS: tuple[CompilerKind, CompilerKind] = ("gcc", "clang")


def tree_of(mounted: Mounted, **changed: int) -> dict[str, bytes]:
    """Return a keyboard's firmware; `changed` are other numbers for constants of sizes.h."""
    tree = images.tree_of(mounted)
    sizes = tree["tables/sizes.h"].decode()
    for name, value in changed.items():
        assert f"#define {name} 0\n" in sizes
        sizes = sizes.replace(f"#define {name} 0\n", f"#define {name} {value}\n")
    return tree | {"tables/sizes.h": sizes.encode()}


def compiled(tree: Mapping[str, bytes], kind: CompilerKind) -> Image:
    """Compile and link a firmware tree."""
    return images.compiled(tree, profile(CONTROLLER), kind)


@functools.cache
def built(kind: CompilerKind, size: int = 2) -> Image:
    return compiled(tree_of(square(size, controller=CONTROLLER)), kind)
