"""What can be wrong with a file as it is read: a page a kind of mistake, beside this file."""

from matrixgen.model.pages import Pages

PROBLEMS = Pages(__file__)

problem = PROBLEMS.__getitem__
"""Return the kind of mistake of that slug, which has a page here."""
