"""The rules: each small, named by a slug, in a file by subject."""

from collections.abc import Sequence

from matrixgen.boards.mounted import Mounted
from matrixgen.model import Allowance, Design, Diagnostic, Keyboard
from matrixgen.rules.context import Context, MountedContext
from matrixgen.rules.registry import MOUNTED_RULES, OPEN_RULES, PROBLEMS, RULES
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished


def check_keyboard(keyboard: Keyboard, allowances: tuple[Allowance, ...] = ()) -> list[Diagnostic]:
    """Return all that is found in the keyboard itself, in no order, and what is allowed as well."""
    context = Context(keyboard, allowances)
    return [found for rule in RULES for found in rule.check(context)]


def check_mounted(mounted: Mounted) -> list[Diagnostic]:
    """Return what is found on one controller, besides what is found in the keyboard itself."""
    context = MountedContext(mounted)
    return [found for rule in MOUNTED_RULES for found in rule.check(context)]


def open_points(design: Design, mounted: Sequence[Mounted]) -> list[OpenPoint]:
    """Return what the file leaves open, in the order in which it is reported."""
    draft = Unfinished(design, mounted)
    return [point for rule in OPEN_RULES for point in rule.look(draft)]
