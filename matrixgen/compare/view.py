"""What whoever puts edits into words looks at: both files in the new file's names."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import Any, Literal

from matrixgen.compare.component_matching import called_in, steps_in
from matrixgen.compare.edits import Edits, FactEdit
from matrixgen.compare.facts import CellNames, Facts, of_kind, places_of, wires_of_keys
from matrixgen.compare.matching import Matches
from matrixgen.model import Axis, other_axis
from matrixgen.record import Record

Physical = Literal["row", "column", "none", "unknown"]
"""Where the band of a key's diode points, or that there is none."""


Place = tuple[float, ...]
"""Right and down in key units, and for an area its size."""

STILL: Place = (0.0, 0.0)

DIGITS = 4
"""Digits of a key unit that a move counts in."""

MOST_NAMED = 6
"""Keys that a text names one by one; of more it says how many they are."""

FEW_KEYS = 2
"""Keys that one takes off a wire, or puts on it, without thinking of a new one."""


class View(Record, kw_only=True):
    """Two files: `old` are the old one's facts in the new names, `first` in its own."""

    first: Facts
    old: Facts
    new: Facts
    edits: Edits
    matches: Matches
    old_names: CellNames
    new_names: CellNames

    def of(self, *kinds: str) -> Iterator[FactEdit]:
        """Yield the edits of some kinds of facts."""
        return (edit for edit in self.edits.edits if edit.path[0] in kinds)

    @cached_property
    def added_keys(self) -> tuple[str, ...]:
        """Keys that only the new file has, in plate order."""
        return self.matches.keys.come(of_kind(self.new, "key"))

    @cached_property
    def removed_keys(self) -> tuple[str, ...]:
        """Keys that only the old file has, by their old names, in plate order."""
        return tuple(key for key in of_kind(self.first, "key") if key in self.edits.gone.keys)

    @cached_property
    def kept_keys(self) -> tuple[str, ...]:
        """Keys that both have, by their new names."""
        return tuple(key for key in of_kind(self.new, "key") if key not in self.added_keys)

    @property
    def added_steps(self) -> tuple[str, ...]:
        """Steps of knobs that only the new file has."""
        knobs = self.matches.components.come(called_in(self.new))
        return tuple(step for step, knob in steps_in(self.new).items() if knob in knobs)

    @cached_property
    def shift(self) -> Place:
        """How far all that is on the plate moved alike: nothing then moves against anything."""
        moves = {_move(self.old["key", key], self.new["key", key]) for key in self.kept_keys}
        if len(moves) != 1:
            return STILL
        (move,) = moves
        old, new = places_of(self.old), places_of(self.new)
        went = {field: _shifted(places, move) for field, places in old.items()}
        here = {field: _shifted(places, STILL) for field, places in new.items()}
        return move if went == here else STILL

    @cached_property
    def added_lines(self) -> tuple[str, ...]:
        """Wires that only the new file has."""
        return self.matches.lines.come(of_kind(self.new, "line"))

    @cached_property
    def added_layers(self) -> tuple[str, ...]:
        """Layers that only the new file has."""
        old = set(self.old["layers",])
        return tuple(layer for layer in self.new["layers",] if layer not in old)

    @cached_property
    def lines_run_anew(self) -> frozenset[str]:
        """Wires of both files of whose keys more change than stay: quicker run anew than mended."""
        after = of_kind(self.new, "visits")
        pairs = (
            (line, set(visits), set(after[line]))
            for line, visits in of_kind(self.old, "visits").items()
            if line in after
        )
        return frozenset(line for line, a, b in pairs if len(a ^ b) > max(len(a & b), FEW_KEYS))

    @cached_property
    def old_lines(self) -> dict[str, dict[str, str]]:
        """The wires of each key of both files in the old one, by axis, in the new names."""
        kept, lines = self.matches.keys.new_of, self.matches.lines.new_of
        return {
            kept[key]: {axis: lines.get(line, line) for axis, line in of_key.items()}
            for key, of_key in self.first_lines.items()
            if key in kept
        }

    @cached_property
    def first_lines(self) -> dict[str, dict[str, str]]:
        """The wires of each key in the old file, by axis, all in its own names."""
        return wires_of_keys(self.first)

    @cached_property
    def new_lines(self) -> dict[str, dict[str, str]]:
        """The wires of each key in the new file, by axis."""
        return wires_of_keys(self.new)


def _move(old: Any, new: Any) -> Place:
    """Return how far a key's middle moved."""
    (x, y), (to_x, to_y) = old[0], new[0]
    return round(to_x - x, DIGITS), round(to_y - y, DIGITS)


def _shifted(places: frozenset[Place], move: Place) -> frozenset[Place]:
    """Return places, each moved."""
    return frozenset(
        (round(x + move[0], DIGITS) + 0.0, round(y + move[1], DIGITS) + 0.0, *size)
        for x, y, *size in places
    )


def diode_of(facts: Facts, key: str) -> Physical:
    """Return where the band of a key's diode points, as a hand feels it."""
    if ("without_diode", key) in facts:
        return "none"
    diodes: Any = facts["wiring", "diodes"]
    if diodes is None:
        return "unknown"
    toward: Axis = diodes[1]
    return other_axis(toward) if ("reversed", key) in facts else toward
