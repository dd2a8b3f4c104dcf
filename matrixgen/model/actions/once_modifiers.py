"""A key that holds modifiers for the next key only."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour
from matrixgen.usages import modifier_names


class OnceModifiers(Behaviour):
    """The modifiers are down for the next key; pressed twice, until pressed again; and while held.

    `modifiers` has their bits, as in `Press`; it is never 0.
    """

    modifiers: int

    @property
    def phrase(self) -> str:
        """`once MODIFIER`."""
        return f"once {'+'.join(modifier_names(self.modifiers))}"

    @property
    def is_modifier(self) -> bool:
        """It is one."""
        return True
