"""From a firmware tree to an image whose memory use is known."""

from matrixgen.toolchain.compilers import Compiler, find_compiler, kinds_at_hand
from matrixgen.toolchain.compiling import CompileFailure, compile_tree
from matrixgen.toolchain.image import (
    Budget,
    Image,
    Memory,
    Overrun,
    overruns,
    read_image,
    to_hex,
)
from matrixgen.toolchain.uf2 import to_uf2
