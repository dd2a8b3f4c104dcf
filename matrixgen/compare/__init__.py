"""Two revisions of a file: what changed, and whether it needs the soldering iron."""

from matrixgen.compare.change import KINDS, Change, Kind, Step
from matrixgen.compare.comparison import Comparison, compare

__all__ = ["KINDS", "Change", "Comparison", "Kind", "Step", "compare"]
