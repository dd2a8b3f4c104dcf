"""A plate drawn in letters, for a terminal."""

from matrixgen.draw.plate_text import plate_text

__all__ = ["plate_text"]
