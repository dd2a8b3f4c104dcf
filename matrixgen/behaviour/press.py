"""A usage and modifiers are down for as long as the key is."""

from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import Press


def press(action: Press, lasting: Lasting) -> None:
    """Nothing lasts; that something was typed is noted in `once.py`."""


def hold(action: Press, held: Held) -> None:
    """Its usage and modifiers are down."""
    held.usages |= {action.usage} - {0}
    held.modifiers |= action.modifiers
