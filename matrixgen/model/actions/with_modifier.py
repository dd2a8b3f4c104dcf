"""A key that does something else while a modifier is down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions.behaviour import Behaviour, PressWords
from matrixgen.record import Record
from matrixgen.usages import modifier_names

if TYPE_CHECKING:
    from matrixgen.model.actions import Action

RIGHT = 4
"""So many bits after a left modifier comes the right one of its kind (HID 1.11 appendix B.1)."""

SIDES = 1 | 1 << RIGHT
"""The bits of Ctrl on both sides; those of the other kinds follow."""


def kinds_of(modifiers: int) -> int:
    """Return the kinds of modifiers, on whichever side, as the bits of the left ones."""
    return (modifiers | modifiers >> RIGHT) & 0x0F


class Instead(Record):
    """What a key does while modifiers are down: of each kind in `modifiers`, one of its sides."""

    modifiers: int
    action: Action

    @property
    def words(self) -> str:
        """The modifiers as the language has them: a kind by its name where either side will do."""
        kinds = (bit for bit in range(RIGHT) if kinds_of(self.modifiers) >> bit & 1)
        return "+".join(_word(self.modifiers & SIDES << bit, bit) for bit in kinds)

    def hides(self) -> int:
        """Return the modifiers that are up meanwhile: all that it asks for but its own."""
        from matrixgen.model.actions.press import Press

        own = self.action.modifiers if isinstance(self.action, Press) else 0
        return self.modifiers & ~own


def _word(sides: int, bit: int) -> str:
    (name,) = modifier_names(1 << bit)
    if sides == SIDES << bit:
        return name
    return f"Left{name}" if sides == 1 << bit else modifier_names(sides)[0]


class WithModifier(Behaviour):
    """It does `plain`, and something else while modifiers are down as the computer is told.

    What then is done is sent without them.
    """

    plain: Action
    others: tuple[Instead, ...]

    def said(self, words: PressWords) -> str:
        """Return `ACTION, with MODIFIER ACTION`, and more of them."""
        others = (f"with {one.words} {one.action.said(words)}" for one in self.others)
        return ", ".join([self.plain.said(words), *others])

    @property
    def parts(self) -> tuple[Action, ...]:
        """What it does without a modifier, then with each."""
        return (self.plain, *(one.action for one in self.others))

    @property
    def in_order(self) -> tuple[Instead, ...]:
        """What is looked for first comes first: more modifiers, then one side rather than either.

        Of those that are alike in that, the one that is written first.
        """
        return tuple(sorted(self.others, key=_looked_for))

    def chosen(self, down: int) -> Instead:
        """Return what it does while modifiers are down; the plain action asks for none."""
        found = (one for one in self.in_order if _are_down(one.modifiers, down))
        return next(found, Instead(0, self.plain))


def _looked_for(one: Instead) -> tuple[int, int]:
    return -kinds_of(one.modifiers).bit_count(), one.modifiers.bit_count()


def _are_down(asked: int, down: int) -> bool:
    return kinds_of(asked & down) == kinds_of(asked)
