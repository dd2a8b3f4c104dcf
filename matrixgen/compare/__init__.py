"""Two revisions of a file: what changed, and whether it needs the soldering iron."""

from matrixgen.compare.change import KINDS, BenchStep, Change, Kind
from matrixgen.compare.comparison import Comparison, compare

__all__ = ["KINDS", "BenchStep", "Change", "Comparison", "Kind", "compare"]
