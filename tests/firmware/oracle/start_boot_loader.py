"""A press ends the keyboard; the harness counts it and goes on."""

from matrixgen.model import StartBootLoader
from tests.firmware.oracle.state import Held, Lasting


def press(action: StartBootLoader, lasting: Lasting) -> None:
    lasting.boot_loads += 1


def hold(action: StartBootLoader, held: Held) -> None:
    """Nothing is held."""
