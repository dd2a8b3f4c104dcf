"""A plate drawn in characters, for a terminal, and what is written on its keys."""

from matrixgen.draw.captions import Captions, legend_lines
from matrixgen.draw.plate_text import plate_rows, plate_text, room_of, widest_unit
