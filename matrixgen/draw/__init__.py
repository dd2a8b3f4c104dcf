"""A plate drawn in letters, for a terminal."""

from matrixgen.draw.plate_text import plate_rows, plate_text, widest_unit

__all__ = ["plate_rows", "plate_text", "widest_unit"]
