"""Merging three versions of a file by what they say, not by their lines."""

from matrixgen.merge.merge import Merged, merge
