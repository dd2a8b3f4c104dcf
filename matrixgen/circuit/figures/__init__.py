"""Every figure of a keyboard on a controller, with its formula, its inputs and their sources."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.circuit.figures.figure import Figure, Input, Section, Source
from matrixgen.circuit.figures.ghosts import ghost_figures
from matrixgen.circuit.figures.levels import level_figures
from matrixgen.circuit.figures.lights import light_sections
from matrixgen.circuit.figures.supply import high_figures, supply_figures
from matrixgen.circuit.figures.times import knob_figures, settling_figures, time_figures
from matrixgen.circuit.ghost_report import GhostReport
from matrixgen.circuit.knob_times import KnobTimes
from matrixgen.circuit.leakage import Leakage
from matrixgen.circuit.network import Network
from matrixgen.circuit.over_supply import LevelsOverSupply
from matrixgen.circuit.settling import Settling
from matrixgen.model import Keyboard, matrix_of


def ghost_section(keyboard: Keyboard) -> Section:
    """Return the figures that are the same on every controller."""
    return ghost_figures(GhostReport(keyboard, matrix_of(keyboard)))


def figures_of(mounted: Mounted) -> list[Section]:
    """Return the figures of a keyboard on a controller; levels only where its diodes are known."""
    matrix = matrix_of(mounted.keyboard)
    settling = Settling(mounted, matrix)
    times = KnobTimes(mounted, matrix, settling.firmware_us)
    sections: list[Section | None] = [supply_figures(mounted.profile)]
    if mounted.diode:
        levels = LevelsOverSupply(mounted, Network(matrix), mounted.diode, most_down=None)
        sections += [level_figures(levels), high_figures(Leakage(mounted, matrix, mounted.diode))]
    sections += [settling_figures(settling), time_figures(times), knob_figures(times)]
    sections += light_sections(mounted)
    return [section for section in sections if section]
