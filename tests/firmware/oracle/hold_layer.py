"""A layer is on for as long as the key is down."""

from matrixgen.model import HoldLayer
from tests.firmware.oracle.state import Held, Lasting


def press(action: HoldLayer, lasting: Lasting) -> None:
    """Nothing lasts."""


def hold(action: HoldLayer, held: Held) -> None:
    held.layers.add(action.layer)
