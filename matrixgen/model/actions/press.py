"""A key that holds down a usage, modifiers, or both."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour, PressWords
from matrixgen.usages.key_stroke import KeyStroke


class Press(Behaviour):
    """Hold down one usage of the keyboard page, or some modifiers, or both.

    `usage` is a number of HID usage page 0x07, or 0 for none. `modifiers` has bit n set for usage
    0xE0 + n (HID 1.11 appendix B.1), so that Left Control is bit 0 and Right GUI is bit 7. A
    modifier on its own is a bit in `modifiers`, never a `usage`.
    """

    usage: int
    modifiers: int = 0

    def said(self, words: PressWords) -> str:
        """Return modifiers and key as one word, such as `Ctrl+C`."""
        return words(KeyStroke(self.usage, self.modifiers))

    @property
    def sends(self) -> tuple[int, ...]:
        """Its usage, if it has one besides modifiers."""
        return (self.usage,) if self.usage else ()

    @property
    def is_modifier(self) -> bool:
        """Whether it has modifiers and no usage."""
        return self.modifiers != 0 and self.usage == 0
