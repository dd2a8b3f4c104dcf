"""Images of random keyboards, built to be measured: what each uses, and what it takes."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from matrixgen.boards import Mounted, Profile, builtin_profile
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import FAMILIES, CompilerKind
from matrixgen.record import changed
from matrixgen.source import read_design
from matrixgen.toolchain import Image, compile_tree, find_compiler
from tests.sizes.keyboards import random_text

SOURCE = "sized.keys"
CONTROLLERS = (
    *("at90usb162", "at90usb162"),  # twice: it has the least room, and no hardware to multiply
    *("atmega16u4", "atmega32u4", "stick-32u4", "board-32u4-25", "at90usb646", "at90usb1286"),
)
"""What keyboards are drawn for: each AVR chip. On the RP2040 no file of this language needs a tenth
of the flash that its boards have."""

ROOM = 1 << 17
"""Flash and RAM in which every image can be linked, in bytes: its size is asked, not its fit."""


@dataclass(frozen=True)
class Sized:
    """A keyboard's image: the controller, what the templates got, bytes of flash and of RAM."""

    controller: str
    view: FirmwareView
    flash: int
    ram: int


def profile_of(name: str) -> Profile:
    found = builtin_profile(name)
    assert found is not None
    return found


def random_keyboards(controllers: Sequence[str], seed: str) -> Iterator[Mounted]:
    """Yield keyboards on one of some controllers each, the same ones for the same seed."""
    for number in range(1 << 30):
        chance = random.Random(f"{seed} {number}")
        profile = profile_of(chance.choice(controllers))
        text = random_text(chance, profile)
        design, findings = read_design(SOURCE, text)
        assert design is not None, findings
        yield Mounted(design.keyboard, design.mountings[0], profile)


def sized(mounted: Mounted, kind: CompilerKind) -> Sized:
    """Build a keyboard as if its chip had room for anything, and measure it."""
    profile = mounted.profile
    compiler = find_compiler(kind, FAMILIES[profile.port or ""])
    assert compiler is not None, f"{kind} is not on this machine"
    view = firmware_view(mounted, SOURCE)
    roomy = changed(profile, flash_bytes=ROOM, ram_bytes=ROOM // 4)
    tree = firmware_tree(firmware_view(changed(mounted, profile=roomy), SOURCE))
    made = compile_tree(tree, view.chip, compiler)
    assert isinstance(made, Image), made.output
    return Sized(profile.name, view, made.flash_used, made.ram_used)


def all_sized(keyboards: Sequence[Mounted], kind: CompilerKind, workers: int) -> list[Sized]:
    """Build keyboards, some at once."""
    with ThreadPoolExecutor(workers) as pool:
        return list(pool.map(lambda one: sized(one, kind), keyboards))
