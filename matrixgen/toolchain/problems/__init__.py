"""What can be wrong with an image: one file a problem, its docstring the page."""

from matrixgen.model.diagnostic import Problem
from matrixgen.toolchain.problems import (
    controller_without_firmware,
    image_over_flash,
    variables_over_ram,
)

PROBLEMS: tuple[Problem, ...] = (
    controller_without_firmware.PROBLEM,
    image_over_flash.PROBLEM,
    variables_over_ram.PROBLEM,
)
"""Every problem of this room, for `explain`. Only a build finds them: there is no image before."""
