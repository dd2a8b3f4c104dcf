"""The RP2040 firmware, built by either compiler for the emulator tests."""

from __future__ import annotations

import functools
from collections.abc import Mapping

from matrixgen.boards import Mounted
from matrixgen.families import CompilerKind
from matrixgen.record import changed
from matrixgen.toolchain import Image
from tests.amounts import IS_LONG
from tests.emulators import images
from tests.emulators.images import tree_of
from tests.emulators.keyboards import profile, square

CONTROLLER = "rp2040"
SHARE = 0.15 if IS_LONG else 0.06
"""Of each millisecond, what the core is given where a test waits, to save time.

A turn of the loop takes 15 us, so that there are ten to each millisecond even so, or four.
"""
KINDS: tuple[CompilerKind, CompilerKind] = ("gcc", "clang")


def twice_to_boot_loader(mounted: Mounted) -> Mounted:
    """Return a keyboard whose boot loader starts at two presses of reset, too."""
    keyboard = mounted.keyboard
    loader = changed(keyboard.boot_loader, double_reset=mounted.mounting.controller.span)
    return changed(mounted, keyboard=changed(keyboard, boot_loader=loader))


def compiled(tree: Mapping[str, bytes], kind: CompilerKind) -> Image:
    """Compile and link a firmware tree."""
    return images.compiled(tree, profile(CONTROLLER), kind)


@functools.cache
def built(kind: CompilerKind, size: int = 2) -> Image:
    return compiled(tree_of(square(size, controller=CONTROLLER)), kind)
