"""A layer is on for as long as the key is down."""

from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import HoldLayer


def press(action: HoldLayer, lasting: Lasting) -> None:
    """Nothing lasts."""


def hold(action: HoldLayer, held: Held) -> None:
    """Its layer is on."""
    held.layers.add(action.layer)
