"""A key that does something else while a modifier is down.

Which of its actions a press does goes by the modifiers that are down as the press is done: those
that keys hold, and those that wait for the next key. Caps Lock is no modifier. What is chosen is
sent without the modifiers that it was chosen by, unless it has them itself: these are hidden.

They go up in a report of their own, since the order of what changes in one report is not defined
(HID 1.11 appendix C), and the key's press comes in the next. They are hidden on both sides, if
either side will do, and whatever keys for them are pressed or let go meanwhile. As the key is let
go, those that are still down come back. They also do before another key types: then the key is
over, its usage goes up, and that press comes in the next report.

What is typed in turn hides nothing: while it is typed, all modifiers are up.
"""

from __future__ import annotations

from matrixgen.model import Action, InTurn, WithModifier
from matrixgen.record import Record


class Hidden(Record):
    """The modifiers that the computer is not told of, by which key, and that key's action."""

    key: str
    modifiers: int
    action: WithModifier


def chosen(action: Action, down: int) -> Action:
    """Return what a key does while modifiers are down."""
    return action.chosen(down).action if isinstance(action, WithModifier) else action


def hidden_by(key: str, action: Action, down: int) -> Hidden | None:
    """Return what the press of a key hides, if it was chosen by modifiers that are down."""
    if not isinstance(action, WithModifier):
        return None
    found = action.chosen(down)
    if not found.modifiers or isinstance(found.action, InTurn):
        return None
    return Hidden(key, found.hides(), action)
