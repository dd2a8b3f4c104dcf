"""A key that is dead on purpose."""

from matrixgen.model import Nothing
from tests.firmware.oracle.state import Held, Lasting


def press(action: Nothing, lasting: Lasting) -> None:
    """Nothing lasts."""


def hold(action: Nothing, held: Held) -> None:
    """Nothing is held."""
