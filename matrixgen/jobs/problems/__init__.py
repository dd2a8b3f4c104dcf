"""What can be wrong with an image: a page a kind of mistake, beside this file.

Only a build finds these: there is no image before.
"""

from matrixgen.model.pages import Pages

PROBLEMS = Pages(__file__)
