"""Keys and presses in a file's words, where the file says what its computer is set to."""

from __future__ import annotations

from matrixgen.layouts.host_layout import HostLayout, Way
from matrixgen.layouts.marks import is_dead_mark, spacing_of
from matrixgen.usages import modifier_names, word_of
from matrixgen.usages.key_stroke import KeyStroke

JOINS = "+"
"""What joins modifiers and a key: no key is called that."""


class KeyWords:
    """The words of a layout: a file that names it means by each just that key, or that press."""

    def __init__(self, layout: HostLayout) -> None:
        self._layout = layout

    def key(self, usage: int) -> str:
        """Return a key's name, which no other has: its plain sign, a letter as on keycaps.

        A key whose plain sign names none is called by its place, or by its other signs.
        """
        plain, *others = self._layout.signs(usage)
        for sign in (plain, word_of(usage), *others):
            if sign and (len(sign) > 1 or self._names(sign, usage)):
                capital = self._above(usage, sign) or sign.upper()
                is_same = len(capital) == 1 and self._names(capital, usage)
                return capital if is_same and capital.isupper() else sign
        return word_of(usage)

    def _names(self, sign: str, usage: int) -> bool:
        """Whether a file that says a sign means that key; ASCII is US places without Latin ones."""
        if sign == JOINS or sign.isspace() or (sign.isascii() and not self._layout.has_latin):
            return False
        return self._layout.switch_of(sign) == usage

    def way_of_cell(self, sign: str) -> Way | None:
        """Return the strokes of a cell with one sign; None where none make it appear.

        A capital is its letter, as on keycaps.
        """
        return self._layout.way(self._small(sign))

    def _small(self, sign: str) -> str:
        """Return the letter that a capital is of: on the key that has both, else Unicode's.

        A capital whose letter the layout does not have stands for itself.
        """
        usage = self._layout.switch_of(sign)
        plain, shifted, third, fourth = self._layout.signs(usage) if usage else (None,) * 4
        for small, capital in ((plain, shifted), (third, fourth)):
            if sign == capital and small and small.islower() and sign.isupper():
                return small
        small = sign.lower()
        return small if len(small) == 1 and self._layout.way(small) else sign

    def cell_of(self, way: Way, sign: str) -> str | None:
        """Return the cell of one sign that is typed in a way; None where no cell is."""
        above = self._above(way[0].usage, sign)
        shown = (one for one in (above, sign.upper(), sign) if one and len(one) == 1)
        return next((one for one in shown if self.way_of_cell(one) == way), None)

    def _above(self, usage: int, small: str) -> str | None:
        """Return the capital on the key of a small letter; Turkish has other ones than Unicode."""
        plain, shifted, *_ = self._layout.signs(usage)
        return shifted if small == plain and small.islower() else None

    def sign(self, stroke: KeyStroke) -> str | None:
        """Return the one sign of a cell that is this press, a letter as its capital; else None.

        So it has none where the press makes no sign, a capital, or a sign that has a better way.
        """
        mark = self._layout.mark_of(stroke)
        if mark is None or is_dead_mark(mark) or mark.isspace():
            return None
        return self.cell_of((stroke,), mark)

    def dead_sign(self, stroke: KeyStroke) -> str | None:
        """Return the sign that a dead key adds to letters; None where a press is no dead key."""
        mark = self._layout.mark_of(stroke)
        return spacing_of(mark) if mark and is_dead_mark(mark) else None

    def stroke(self, stroke: KeyStroke) -> str:
        """Return a press in words: the sign that appears, or modifiers and key.

        No two presses are called alike: a key alone whose sign another press makes is its place.
        """
        if stroke.modifiers or not stroke.usage:
            return self.sign(stroke) or self._pressed(stroke)
        if self.dead_sign(stroke):
            return f"dead {self.key(stroke.usage)}"
        return self.sign(stroke) or word_of(stroke.usage)

    def _pressed(self, stroke: KeyStroke) -> str:
        """Return modifiers and key as one word, such as `Ctrl+Z`."""
        key = [self.key(stroke.usage)] if stroke.usage else []
        return JOINS.join([*modifier_names(stroke.modifiers), *key])
