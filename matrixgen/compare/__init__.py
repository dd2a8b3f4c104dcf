"""Two revisions of a file: what changed, and whether it needs the soldering iron."""

from matrixgen.compare.change import KINDS, BenchStep, Change
from matrixgen.compare.comparison import Comparison, compare
