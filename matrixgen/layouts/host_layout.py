"""One layout on one system: how a sign is typed, and what strokes type."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property, lru_cache
from itertools import product
from typing import Any

from matrixgen.layouts.caps import CapsLock, other_cases
from matrixgen.layouts.files import document_of, layout_names
from matrixgen.layouts.marks import Marks, is_dead_mark, marks_on, read_way, spacing_of, x11_marks
from matrixgen.layouts.pairs import DeadPairs
from matrixgen.layouts.ranks import ALL_KEYPADS, RankedWay, is_rare, rank_of_way, switch_rank
from matrixgen.layouts.strokes import LEVELS, System, level_of, modifiers_of
from matrixgen.layouts.typing_out import written_text
from matrixgen.usages.key_stroke import KeyStroke

Way = tuple[KeyStroke, ...]


@lru_cache(maxsize=8)
def layout_named(name: str, system: System | None = None) -> HostLayout | None:
    """Return a layout by its name in X11's registry, as a system has it; None where there is none.

    Without a system it has the ways that Linux and Windows share, and else is as X11 has it.
    """
    return HostLayout(document_of(name), system) if name in layout_names() else None


class HostLayout:
    """What a computer makes of keys: a layout on a system, or on Linux and Windows alike.

    Where nothing is known of the layout on the system (`is_known`), no sign has a way, and the
    signs of keys are X11's.
    """

    def __init__(self, document: dict[str, Any], system: System | None) -> None:
        """Take a layout's file as it was read."""
        self._document, self.system = document, system
        self.name, self.language = str(document["name"]), str(document["language"])
        known = marks_on(document, system or "linux")
        self.is_known = known is not None
        self._marks: Marks = x11_marks(document) if known is None else known
        self._caps = CapsLock(document, system)
        self._pairs = DeadPairs(self._marks, system or "linux")

    @property
    def source(self) -> str:
        """The data that the layout is from."""
        return str(self._document["source"])

    @property
    def is_compared(self) -> bool:
        """Whether the layout is known on Windows and macOS, too; else only X11's data are."""
        return self._document["elsewhere"] is not None

    @property
    def usages(self) -> tuple[int, ...]:
        """The keys that have a sign or a dead key."""
        return tuple(usage for usage, marks in sorted(self._marks.items()) if any(marks))

    def signs(self, usage: int) -> tuple[str | None, ...]:
        """Return the signs of a key's four levels; of a dead key, the sign that it adds."""
        marks = self._marks.get(usage, [None] * LEVELS)
        return tuple(spacing_of(one) if one and is_dead_mark(one) else one for one in marks)

    def is_dead(self, usage: int, level: int) -> bool:
        """Whether a key is a dead key on a level, 0 to 3."""
        return usage in self._marks and is_dead_mark(self._marks[usage][level])

    def caps_shifts(self, usage: int) -> bool:
        """Whether Caps Lock does to a key, without other modifiers, what Shift does."""
        marks = self._marks.get(usage)
        return marks is not None and self._caps.mark(usage, 0, marks) == marks[1] != marks[0]

    @cached_property
    def has_latin(self) -> bool:
        """Whether each of a to z is a key's plain sign, or its shifted one."""
        plain = {mark for marks in self._marks.values() for mark in marks[:2]}
        return plain >= set("abcdefghijklmnopqrstuvwxyz")

    def way(self, sign: str) -> Way | None:
        """Return how a sign is typed: by one stroke, or by a dead key and another; None if not.

        Without a system the way is one that Linux and Windows share, where both are known.
        """
        return next(self._ways(unicodedata.normalize("NFC", sign)), None)

    def has_somewhere(self, sign: str) -> bool:
        """Whether some system has a way to a sign, be it another on each."""
        elsewhere = (self._on("linux"), self._on("windows"), self._on("macos"))
        return any(layout.way(sign) for layout in elsewhere)

    def typable(self) -> tuple[str, ...]:
        """Return the signs that have a way, in the order of their code points."""
        signs = {*self._places, *self._pairs.making}
        return tuple(sorted(sign for sign in signs if len(sign) == 1 and self.way(sign)))

    def switch_of(self, sign: str) -> int | None:
        """Return the key that has a sign, or else a letter's other case, on its lowest level.

        Dead keys count by the sign that they add. Which two letters are one is the key's own affair
        where it has both: so `I` is on the key of the dotless letter in Turkish. The Greek final
        letter has no other case.
        """
        letters = (unicodedata.normalize("NFC", sign), *other_cases(sign))
        found = [
            (switch_rank(*place, nth_letter=nth), place[0])
            for nth, letter in enumerate(letters)
            for place in self._carried.get(letter, ())
        ]
        return min(found)[1] if found else None

    def typed(self, strokes: Iterable[KeyStroke], caps: bool = False) -> str:
        """Return what the computer writes for strokes, with Caps Lock on if `caps`.

        The keypad's digits are those with Num Lock on. A stroke that types nothing known is left
        out, as is a dead key that nothing follows.
        """
        return written_text([self.mark_of(one, caps) for one in strokes], self._pairs)

    def mark_of(self, stroke: KeyStroke, caps: bool = False) -> str | None:
        """Return a stroke's sign or the name of its dead key, which is longer; None for neither."""
        level = level_of(stroke.modifiers, self.system)
        return None if level is None else self.mark(stroke.usage, level, caps)

    def mark(self, usage: int, level: int, caps: bool = False) -> str | None:
        """Return the mark of a key on a level, 0 to 3, with Caps Lock on if `caps`."""
        marks = self._marks.get(usage)
        if marks is None:
            return None
        return self._caps.mark(usage, level, marks) if caps else marks[level]

    def pair(self, dead: str, after: str) -> str:
        """Return what the mark of a dead key and the one after it write; nothing if not known."""
        return self._pairs(dead, after)

    def _ways(self, sign: str) -> Iterator[Way]:
        """Yield the ways to a sign, the best first; dead keys are only read about if need be."""
        if not self.is_known:
            return
        single = [(self._stroke(place),) for place in self._places.get(sign, ())]
        common = [way for way in single if not is_rare(way)]
        for listed in (sorted(common, key=rank_of_way), self._other_ways(sign, single)):
            for one in listed:
                way = tuple(stroke for stroke, _ in one)
                if self._is_shared(way, sign):
                    yield way

    def _other_ways(self, sign: str, single: Iterable[RankedWay]) -> Iterator[RankedWay]:
        """Yield the ways by a dead key, and those that only few keyboards have."""
        found = [way for way in single if is_rare(way)]
        for dead, after in self._pairs.making.get(sign, ()):
            both = product(self._places[dead], self._after_dead(after))
            found += [(self._stroke(first), self._stroke(second)) for first, second in both]
        yield from sorted(found, key=rank_of_way)

    def _after_dead(self, mark: str) -> Iterator[tuple[int, int]]:
        """Yield the places of a mark where it may follow a dead key: those that no keypad has.

        After a dead key, a few signs of a keypad make other signs.
        """
        for place in self._places.get(mark, ()):
            if place[0] not in ALL_KEYPADS and place not in self._keypad:
                yield place

    @cached_property
    def _keypad(self) -> frozenset[tuple[int, int]]:
        """The places where main keys have the symbols of a keypad."""
        ways = self._document.get("keypad on main keys", ())
        return frozenset(read_way(way)[:2] for way in ways)

    def _is_shared(self, way: Way, sign: str) -> bool:
        """Whether a way types the sign on Windows too, if that is asked for and known.

        There, a stroke of which nothing is known may type anything.
        """
        if self.system or not self.is_compared:
            return True
        there = self._on("windows")
        return there.typed(way) == sign and all(there.mark_of(one) for one in way)

    def _stroke(self, place: tuple[int, int]) -> tuple[KeyStroke, int]:
        usage, level = place
        return KeyStroke(usage, modifiers_of(level, self.system)), level

    def _on(self, system: System) -> HostLayout:
        """Return the same layout on a system."""
        if system not in self._others:
            self._others[system] = HostLayout(self._document, system)
        return self._others[system]

    @cached_property
    def _others(self) -> dict[System, HostLayout]:
        return {}

    @cached_property
    def _places(self) -> dict[str, list[tuple[int, int]]]:
        """The places of each mark: usages and levels."""
        return _places_of(self._marks)

    @cached_property
    def _carried(self) -> dict[str, list[tuple[int, int]]]:
        """The places of each sign, dead keys by the sign that they add."""
        return _places_of({usage: self.signs(usage) for usage in self._marks})


def _places_of(table: Mapping[int, Sequence[str | None]]) -> dict[str, list[tuple[int, int]]]:
    """Return the places of each sign of a table, signs as Unicode composes them."""
    found: dict[str, list[tuple[int, int]]] = {}
    for usage, marks in table.items():
        for level, mark in enumerate(marks):
            if mark is not None:
                found.setdefault(unicodedata.normalize("NFC", mark), []).append((usage, level))
    return found
