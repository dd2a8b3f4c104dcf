"""A key of a pointer: one of its buttons, or a way that it or a wheel moves."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour
from matrixgen.usages.pointer import AXES, BUTTONS, pointer_word


class Pointer(Behaviour):
    """Hold down a button, or move the pointer or a wheel one way for as long as the key is down.

    `way` is -1 or 1 on the axis that the usage names, 0 for a button.
    """

    page: int
    usage: int
    way: int

    @property
    def phrase(self) -> str:
        """Its word, such as `PointerLeft`."""
        return pointer_word(self.page, self.usage, self.way)

    @property
    def is_button(self) -> bool:
        """Whether it is a button."""
        return self.page == BUTTONS

    @property
    def axis(self) -> int:
        """Which of the four counts of a report it changes: 0 and 1 the pointer's; not a button."""
        return AXES.index((self.page, self.usage))

    @property
    def moves_pointer(self) -> bool:
        """Whether it moves the pointer itself, so that no press of a key is meant by it."""
        return not self.is_button and self.axis < 2
