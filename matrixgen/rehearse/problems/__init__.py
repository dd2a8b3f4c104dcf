"""What can be wrong with a script of `matrixgen rehearse`: a page a kind of mistake."""

from matrixgen.model.pages import Pages

PROBLEMS = Pages(__file__)
