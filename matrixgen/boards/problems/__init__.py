"""What can be wrong with a controller: one file a problem, its docstring is its page."""

from matrixgen.boards.problems import bad_profile, unknown_controller, unreadable_profile
from matrixgen.model.diagnostic import Problem

PROBLEMS: tuple[Problem, ...] = (
    unknown_controller.PROBLEM,
    unreadable_profile.PROBLEM,
    bad_profile.PROBLEM,
)
