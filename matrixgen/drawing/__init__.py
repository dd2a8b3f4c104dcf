"""A drawing that a maker already has, as plain shapes; the switches in it; the plate they make."""

from matrixgen.drawing.figures import DrawnHousing, Figures, Leftover, figures_in
from matrixgen.drawing.plate_text import plate_of_figures
from matrixgen.drawing.read import read_drawing
