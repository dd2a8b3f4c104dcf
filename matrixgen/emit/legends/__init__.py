"""Legends for keycaps at their true size, for stickers, or to tape onto caps without any."""

from matrixgen.emit.legends.drawn import legends_page, legends_svg
from matrixgen.emit.legends.sheets import PAPERS, sheets_of
