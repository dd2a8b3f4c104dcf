"""A press ends the keyboard; here it is counted."""

from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import StartBootLoader


def press(action: StartBootLoader, lasting: Lasting) -> None:
    """Count it."""
    lasting.boot_loads += 1


def hold(action: StartBootLoader, held: Held) -> None:
    """Nothing is held."""
