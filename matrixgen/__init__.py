"""matrixgen: from one text file to a hand-wired keyboard that types."""

__version__ = "0.1.0"
