"""Another layer lies at the bottom, for good."""

from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import ChangeBase


def press(action: ChangeBase, lasting: Lasting) -> None:
    """Lay its layer on the base layer."""
    lasting.lowest = action.layer


def hold(action: ChangeBase, held: Held) -> None:
    """Nothing is held."""
