"""What the toolchain has to know of each chip family: flags, addresses, and kinds of image."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

CompilerKind = Literal["gcc", "clang"]
ImageKind = Literal["hex", "uf2"]

COMMON_FLAGS = (
    "-std=gnu11",
    "-Os",
    "-ffreestanding",
    "-Wall",
    "-Wextra",
    "-Werror",
    "-Wconversion",
    "-ffunction-sections",
    "-fdata-sections",
    "-fno-jump-tables",  # GCC's need a helper of libgcc, which nothing links
    "-nostdlib",
    "-Iengine",
    "-Iusb",
    "-Iport",
    "-Itables",
    "-Wl,-T,port/link.ld",
    "-Wl,--gc-sections",
)
"""Flags of every compiler, run at the top of a firmware tree. Each `Makefile.j2` says the same."""


@dataclass(frozen=True, slots=True)
class Family:
    """A chip family, named as its folder under `templates/firmware/ports`.

    `gcc` is GCC's command and `package` where Debian keeps it. `gcc_flags` and `clang_flags` may
    hold `{chip}`, the chip's name in lower case. `flash_start` is the address of the flash and
    `ram_start` the first that is none; `stack_bytes` of RAM are kept for the stack. The first of
    `images` is the one that a maker loads.
    """

    name: str
    gcc: str
    package: str
    gcc_flags: tuple[str, ...]
    clang_flags: tuple[str, ...]
    flash_start: int
    ram_start: int
    stack_bytes: int
    images: tuple[ImageKind, ...]

    def flags(self, kind: CompilerKind, chip: str) -> tuple[str, ...]:
        """Return the flags that one compiler needs to build for `chip`, in lower case."""
        own = self.gcc_flags if kind == "gcc" else self.clang_flags
        return (*(flag.format(chip=chip) for flag in own), *COMMON_FLAGS)


AVR = Family(
    name="avr",
    gcc="avr-gcc",
    package="gcc-avr",
    gcc_flags=("-mmcu={chip}", "-nostartfiles", "-Wl,--relax", "-flto", "-Wl,-u,main"),
    clang_flags=(
        "-target",
        "avr-freestanding-none",
        "-mcpu={chip}",
        "-Xclang",
        "-Oz",  # `zig cc` itself takes it for -Os
        "-fno-sanitize=all",  # its checks at run time need a library
        "-Wno-avr-rtlib-linking-quirks",  # no start-up code will be linked: we have our own
    ),
    flash_start=0,
    ram_start=0x800000,  # where the linkers put an AVR's data space
    stack_bytes=96,  # more than twice its deepest use on the emulated chip
    images=("hex",),
)

RP2040 = Family(
    name="rp2040",
    gcc="arm-none-eabi-gcc",
    package="gcc-arm-none-eabi",
    gcc_flags=(
        "-mcpu=cortex-m0plus",
        "-mthumb",
        "-nostartfiles",
        "-Wl,--fatal-warnings",
        "-Wl,--build-id=none",
    ),
    clang_flags=(
        "-target",
        "thumb-freestanding-eabi",
        "-mcpu=cortex_m0plus",
        "-fno-sanitize=all",
        "-fno-unwind-tables",
        "-fno-asynchronous-unwind-tables",
    ),
    flash_start=0x10000000,  # RP2040 datasheet section 2.2, address map
    ram_start=0x20000000,
    stack_bytes=1024,
    images=("uf2", "hex"),
)

FAMILIES = {family.name: family for family in (AVR, RP2040)}
"""Each family by the name of its port's folder."""
