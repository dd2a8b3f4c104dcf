"""A .keys file to a `Design` and back: text, tree, names, and a finding for every mistake."""

from matrixgen.source.design import design_of, read_design
from matrixgen.source.limits import LIMITS, Limits
