"""A keyboard on its controller as the bench sees it: pins, the lines on them, the keys between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from itertools import combinations

from matrixgen.boards import Mounted
from matrixgen.model import Axis, Contact, Diode, Key, Line, matrix_of
from matrixgen.model.geometry import centre_of
from matrixgen.record import Record

GAP = 0.5
"""How far two keys may be apart, in key units, for their joints to touch (common practice, no
source): less than the smallest key."""


class Board(Record, kw_only=True):
    """Lines are numbered, driven ones first; line n is on pin n, and spare pins come after those.

    `drives` says how many lines are driven. A key's place is that of its contact. `near` has the
    places of keys that lie beside each other on the plate, the lower one first.
    """

    lines: tuple[Line, ...]
    drives: int
    pins: tuple[str, ...]
    contacts: tuple[Contact, ...]
    near: tuple[tuple[int, int], ...] = ()

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """The names of the keys, by their places."""
        return tuple(one.key for one in self.contacts)

    @cached_property
    def place_of(self) -> dict[str, int]:
        """The place of each key."""
        return {key: place for place, key in enumerate(self.keys)}

    @cached_property
    def pin_number(self) -> dict[str, int]:
        """The number of each pin."""
        return {pin: number for number, pin in enumerate(self.pins)}

    @cached_property
    def line_number(self) -> dict[str, int]:
        """The number of each line."""
        return {line.name.text: number for number, line in enumerate(self.lines)}

    def numbers_of(self, pairs: Iterable[tuple[str, str]]) -> frozenset[tuple[int, int]]:
        """Return pairs of pins by their numbers."""
        number = self.pin_number
        return frozenset((number[low], number[read]) for low, read in pairs)

    @cached_property
    def ends(self) -> tuple[tuple[int, int], ...]:
        """The numbers of the driven and the sensed line of each key."""
        return tuple((one.drive, self.drives + one.sense) for one in self.contacts)

    @cached_property
    def drive_ends(self) -> tuple[int, ...]:
        """The number of the driven line of each key."""
        return tuple(drive for drive, _ in self.ends)

    @cached_property
    def sense_ends(self) -> tuple[int, ...]:
        """The number of the sensed line of each key."""
        return tuple(sense for _, sense in self.ends)

    @cached_property
    def diodes(self) -> tuple[Diode, ...]:
        """The diode of each key."""
        return tuple(one.diode for one in self.contacts)

    @cached_property
    def visits(self) -> tuple[tuple[int, ...], ...]:
        """The keys of each line, in the order in which its wire visits them."""
        return tuple(
            tuple(self.place_of[word.text] for word in line.visits if word.text in self.place_of)
            for line in self.lines
        )

    @cached_property
    def lines_near(self) -> tuple[frozenset[int], ...]:
        """The lines of the keys that lie beside each key, but for its own two."""
        found: list[set[int]] = [set() for _ in self.contacts]
        for one, other in self.near:
            found[one].update(self.ends[other])
            found[other].update(self.ends[one])
        return tuple(frozenset(lines - {*self.ends[key]}) for key, lines in enumerate(found))

    @property
    def spare(self) -> range:
        """The numbers of the pins that no line is on."""
        return range(len(self.lines), len(self.pins))

    def name(self, line: int) -> str:
        """Return the name of a line."""
        return self.lines[line].name.text

    def axis(self, line: int) -> Axis:
        """Return whether a line is a row or a column."""
        return self.lines[line].axis


def board_of(mounted: Mounted, bench_pins: Sequence[str] | None = None) -> Board | None:
    """Return a keyboard as the bench sees it; None where a line is on no pin of the controller.

    `bench_pins` are those that the bench reads: the controller's usable ones where it is not given.
    """
    matrix = matrix_of(mounted.keyboard)
    lines = (*matrix.drives, *matrix.senses)
    on = [pin.name for line in lines if (pin := mounted.pin_of(line))]
    if len(on) < len(lines) or len(set(on)) < len(on):
        return None
    known = bench_pins or [pin.name for pin in mounted.profile.usable_pins]
    others = mounted.component_pins
    spare = [pin for pin in known if pin not in on and pin not in others]
    by_name = mounted.keyboard.plate.key_of
    return Board(
        lines=lines,
        drives=len(matrix.drives),
        pins=(*on, *spare),
        contacts=matrix.contacts,
        near=tuple(_near([by_name[one.key] for one in matrix.contacts])),
    )


def _near(keys: Sequence[Key]) -> Iterator[tuple[int, int]]:
    """Yield the places of keys that lie beside each other."""
    centres = [centre_of(key) for key in keys]
    for one, other in combinations(range(len(keys)), 2):
        away = [abs(x - y) for x, y in zip(centres[one], centres[other], strict=True)]
        wide = (keys[one].width + keys[other].width) / 2
        high = (keys[one].height + keys[other].height) / 2
        if away[0] < wide + GAP and away[1] < high + GAP:
            yield one, other
