"""A press turns a layer on, the next one off again."""

from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import LatchLayer


def press(action: LatchLayer, lasting: Lasting) -> None:
    """Turn the layer on, or off again."""
    lasting.latched ^= {action.layer}


def hold(action: LatchLayer, held: Held) -> None:
    """Nothing is held."""
