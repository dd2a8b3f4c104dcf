"""The rules: each small, named by a slug, in a file by subject."""

from matrixgen.boards.profile import Profile
from matrixgen.model import Diagnostic, Keyboard, matrix_of
from matrixgen.rules.context import Context
from matrixgen.rules.registry import PROBLEMS, RULES
from matrixgen.rules.settings.allow_without_effect import without_allowed

__all__ = ["PROBLEMS", "RULES", "Context", "check_keyboard", "without_allowed"]


def check_keyboard(keyboard: Keyboard, profile: Profile) -> list[Diagnostic]:
    """Return everything that the rules find, what the file allows included, in no order."""
    context = Context(keyboard, profile, matrix_of(keyboard))
    return [found for rule in RULES for found in rule.check(context)]
