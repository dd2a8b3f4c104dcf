"""What can be wrong with a controller: a page a kind of mistake, beside this file."""

from matrixgen.model.pages import Pages

PROBLEMS = Pages(__file__)
