"""Modifiers for the next key only, and while their key is down."""

from matrixgen.behaviour import once
from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import OnceModifiers


def press(action: OnceModifiers, lasting: Lasting) -> None:
    """See `once.py`."""
    once.press(once.bits_of(action.modifiers), lasting)


def hold(action: OnceModifiers, held: Held) -> None:
    """Its modifiers are down."""
    held.modifiers |= action.modifiers
