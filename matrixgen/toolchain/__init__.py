"""From a firmware tree to an image whose memory use is known."""

from matrixgen.toolchain.build import BuildFailure, build
from matrixgen.toolchain.compilers import Compiler, find_compiler
from matrixgen.toolchain.families import AVR, FAMILIES, RP2040, CompilerKind, Family, ImageKind
from matrixgen.toolchain.image import (
    Budget,
    Image,
    Memory,
    Overrun,
    from_hex,
    overruns,
    read_image,
    to_hex,
)
from matrixgen.toolchain.uf2 import to_uf2

__all__ = [
    "AVR",
    "FAMILIES",
    "RP2040",
    "Budget",
    "BuildFailure",
    "Compiler",
    "CompilerKind",
    "Family",
    "Image",
    "ImageKind",
    "Memory",
    "Overrun",
    "build",
    "find_compiler",
    "from_hex",
    "overruns",
    "read_image",
    "to_hex",
    "to_uf2",
]
