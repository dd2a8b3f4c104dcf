"""A key that is dead on purpose."""

from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import Nothing


def press(action: Nothing, lasting: Lasting) -> None:
    """Nothing lasts."""


def hold(action: Nothing, held: Held) -> None:
    """Nothing is held."""
