"""A media key is down for as long as its key is."""

from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import Media


def press(action: Media, lasting: Lasting) -> None:
    """Nothing lasts."""


def hold(action: Media, held: Held) -> None:
    """Put it down."""
    held.media.add((action.page, action.usage))
