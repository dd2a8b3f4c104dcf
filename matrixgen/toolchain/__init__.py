"""From a firmware tree to an image whose memory use is known."""

from matrixgen.toolchain.build import BuildFailure, build
from matrixgen.toolchain.compilers import Compiler, CompilerKind, find_compiler
from matrixgen.toolchain.image import Budget, Image, Overrun, from_hex, overruns, read_image, to_hex

__all__ = [
    "Budget",
    "BuildFailure",
    "Compiler",
    "CompilerKind",
    "Image",
    "Overrun",
    "build",
    "find_compiler",
    "from_hex",
    "overruns",
    "read_image",
    "to_hex",
]
