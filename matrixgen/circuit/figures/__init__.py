"""Every figure of a keyboard on a controller, with its formula, its inputs and their sources."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.circuit.figures.figure import Figure, Input, Section, Source
from matrixgen.circuit.figures.ghosts import ghost_figures
from matrixgen.circuit.figures.levels import level_figures
from matrixgen.circuit.figures.times import settling_figures, time_figures
from matrixgen.circuit.ghost_report import GhostReport
from matrixgen.circuit.levels import Levels
from matrixgen.circuit.settling import Settling
from matrixgen.circuit.timing import Timing
from matrixgen.model import Keyboard, matrix_of

__all__ = ["Figure", "Input", "Section", "Source", "figures_of", "ghost_section"]


def ghost_section(keyboard: Keyboard) -> Section:
    """Return the figures that are the same on every controller."""
    return ghost_figures(GhostReport(keyboard, matrix_of(keyboard)))


def figures_of(mounted: Mounted) -> list[Section]:
    """Return the figures of a keyboard on a controller; levels only where its diodes are known."""
    matrix = matrix_of(mounted.keyboard)
    settling = Settling(mounted, matrix)
    timing = Timing(mounted, matrix, settling.firmware_us)
    levels = level_figures(Levels(mounted, matrix, mounted.diode)) if mounted.diode else None
    sections = (levels, settling_figures(settling), time_figures(timing))
    return [section for section in sections if section]
