"""The RP2040 firmware, built by either compiler for the emulator tests."""

from __future__ import annotations

import functools
from collections.abc import Mapping

from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.render import firmware_tree
from matrixgen.model import Keyboard
from matrixgen.toolchain import RP2040, CompilerKind, Image, build, find_compiler
from tests.emulators.keyboards import profile, square

CONTROLLER = "rp2040"
KINDS: tuple[CompilerKind, CompilerKind] = ("gcc", "clang")


def tree_of(keyboard: Keyboard, **changed: int) -> dict[str, bytes]:
    """Return a keyboard's firmware; `changed` are other numbers for constants of sizes.h."""
    tree = firmware_tree(firmware_view(keyboard, profile(keyboard.controller.text)))
    sizes = tree["tables/sizes.h"].decode()
    for name, value in changed.items():
        assert f"#define {name} 0\n" in sizes
        sizes = sizes.replace(f"#define {name} 0\n", f"#define {name} {value}\n")
    return tree | {"tables/sizes.h": sizes.encode()}


def compiled(tree: Mapping[str, bytes], kind: CompilerKind) -> Image:
    """Compile and link a firmware tree."""
    compiler = find_compiler(kind, RP2040)
    assert compiler is not None, f"the tests need {kind} for Arm"
    image = build(tree, "rp2040", compiler)
    assert isinstance(image, Image), image.output
    return image


@functools.cache
def built(kind: CompilerKind, size: int = 2) -> Image:
    return compiled(tree_of(square(size, controller=CONTROLLER)), kind)
