"""A press turns a layer on, the next one off again."""

from matrixgen.model import LatchLayer
from tests.firmware.oracle.state import Held, Lasting


def press(action: LatchLayer, lasting: Lasting) -> None:
    lasting.latched ^= {action.layer}


def hold(action: LatchLayer, held: Held) -> None:
    """Nothing is held."""
