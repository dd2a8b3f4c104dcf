"""A layer for the next key only, and while its key is down."""

from matrixgen.behaviour import once
from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import OnceLayer


def press(action: OnceLayer, lasting: Lasting) -> None:
    """See `once.py`."""
    once.press({action.layer}, lasting)


def hold(action: OnceLayer, held: Held) -> None:
    """Its layer is on."""
    held.layers.add(action.layer)
