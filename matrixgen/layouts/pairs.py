"""What a dead key and the key after it make, on each system.

X11 has a table of them. Of Windows and macOS less is known: some letters, that Space gives the dead
key's sign, and that both signs are written where the two make none.
"""

from __future__ import annotations

from functools import cached_property

from matrixgen.layouts.files import dead_keys
from matrixgen.layouts.marks import Marks, is_dead_mark, spacing_of
from matrixgen.layouts.strokes import System


class DeadPairs:
    """The pairs of a layout on a system."""

    def __init__(self, marks: Marks, system: System) -> None:
        """Take what is needed of a layout: the table of its keys on that system."""
        self._system = system
        self._marks = marks

    def __call__(self, dead: str, after: str) -> str:
        """Return what a dead key and the mark after it write; nothing where that is not known."""
        makes = dead_keys()[dead]["makes"]
        if self._system == "linux":
            return str(makes.get(after, ""))
        if after == " ":
            return self._before_space(dead)
        if after in dead_keys()[dead]["everywhere"]:
            return str(makes[after])
        if after in makes and after != dead:
            return ""  # X11 makes a sign of it: whether the others do is not known
        return spacing_of(dead) + (spacing_of(after) if is_dead_mark(after) else after)

    def _before_space(self, dead: str) -> str:
        """Return the sign of a dead key; an ASCII one where no key has that in its plain place.

        So `'` is typed by the dead key that makes `á` where the layout is for programmers.
        """
        ascii_sign = str(dead_keys()[dead]["makes"].get(" ", ""))
        if ascii_sign.isascii() and ascii_sign and not self._has_plain(ascii_sign):
            return ascii_sign
        return spacing_of(dead)

    def _has_plain(self, sign: str) -> bool:
        return any(sign in marks for marks in self._marks.values())

    @cached_property
    def making(self) -> dict[str, list[tuple[str, str]]]:
        """The pairs that make each sign: a dead key and the mark after it."""
        dead = {mark for marks in self._marks.values() for mark in marks if mark}
        found: dict[str, list[tuple[str, str]]] = {}
        for one in sorted(filter(is_dead_mark, dead)):
            for after in dead_keys()[one]["makes"]:
                if len(sign := self(one, after)) == 1:
                    found.setdefault(sign, []).append((one, after))
        return found
