"""A usage and modifiers are down for as long as the key is."""

from matrixgen.model import Press
from tests.firmware.oracle.state import Held, Lasting


def press(action: Press, lasting: Lasting) -> None:
    """Nothing lasts."""


def hold(action: Press, held: Held) -> None:
    held.usages |= {action.usage} - {0}
    held.modifiers |= action.modifiers
