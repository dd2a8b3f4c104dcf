"""From a layout to the wires of a file: their names, pins, colours and keys."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import product
from typing import Any

from matrixgen.boards import Profile, word_for
from matrixgen.fit.layout import Layout
from matrixgen.fit.line_names import line_names
from matrixgen.fit.near_pins import nearness
from matrixgen.fit.pins import choose_pins
from matrixgen.model import AXES, Axis, DiodeRule, Keyboard, Line, Word, other_axis
from matrixgen.record import Record, changed

FIRST_LETTER: dict[Axis, str] = {"row": "r", "column": "c"}


class NewLine(Record, kw_only=True):
    """A wire to be written. `was` is the wire of the file that it goes on from, if any.

    `pins` has one pin a controller, as a person reads it on the board; none where none is chosen.
    `keeps_pins` says whether they are those of the wire that it goes on from.
    """

    axis: Axis
    name: str
    keys: tuple[str, ...]
    pins: tuple[str, ...] = ()
    was: Line | None = None
    keeps_pins: bool = True

    @property
    def is_as_it_was(self) -> bool:
        """Whether it is the wire that it goes on from, name and keys, on the same pins."""
        was = self.was and (self.was.name.text, tuple(word.text for word in self.was.visits))
        return self.keeps_pins and (self.name, self.keys) == was

    @property
    def colour(self) -> str | None:
        """The colour of the wire that it goes on from."""
        return self.was.colour.text if self.was and self.was.colour else None


def new_lines(keyboard: Keyboard, layout: Layout, spoken_of: Collection[str] = ()) -> list[NewLine]:
    """Return the wires of a layout, rows first.

    A wire that has half of the keys of one that the file has, or more, goes on from it and keeps
    its name, unless that would leave a hole in the numbers of its axis. `spoken_of` are names that
    the file uses elsewhere: whoever has one keeps it, and nobody new gets it.
    """
    names = [key.name.text for key in keyboard.keys]
    found: list[NewLine] = []
    runs_of = dict(zip(AXES, (layout.rows, layout.columns), strict=True))
    keys = {axis: [tuple(names[key] for key in run) for run in runs_of[axis]] for axis in AXES}
    kept = {axis: _survivors(keyboard.wiring.of_axis(axis), keys[axis]) for axis in AXES}
    taken: set[str] = set()
    for axis in AXES:
        others = {one.name.text for one in kept[other_axis(axis)] if one} | taken
        old = keyboard.wiring.of_axis(axis)
        named = line_names(FIRST_LETTER[axis], old, kept[axis], others, spoken_of)
        taken = set(named)
        found += [
            NewLine(axis=axis, name=name, keys=of_line, was=was)
            for name, of_line, was in zip(named, keys[axis], kept[axis], strict=True)
        ]
    return found


def _survivors(old: Sequence[Line], new: Sequence[tuple[str, ...]]) -> list[Line | None]:
    """Return for each new wire the old one that it goes on from, so that most keys stay on theirs.

    That is a matching of greatest weight; a pair that shares less than half of the old wire's keys
    is none.
    """
    shared = {
        (line, run): len({word.text for word in old[line].visits} & set(new[run]))
        for line, run in product(range(len(old)), range(len(new)))
    }
    pairs = [pair for pair, keys in shared.items() if keys * 2 >= len(old[pair[0]].visits)]
    kept: list[Line | None] = [None] * len(new)
    if not pairs:
        return kept
    import networkx  # only here: a file without wires, and `learn`, need not wait for it

    graph: Any = networkx.Graph()
    for line, run in pairs:
        graph.add_edge(("old", line), ("new", run), weight=shared[line, run])
    for pair in networkx.max_weight_matching(graph):
        (_, run), (_, line) = sorted(pair)
        kept[run] = old[line]
    return kept


def with_pins(
    lines: Sequence[NewLine],
    profiles: Sequence[Profile],
    keyboard: Keyboard,
    old: Mapping[str, Sequence[Word]],
) -> list[NewLine] | None:
    """Return wires with a pin of each controller; None where one of those has too few.

    `old` has the pins of the file's wires by their names, one a controller: a wire that goes on
    from one of them keeps its pin, if it can. The `keyboard` says which wires are driven, and where
    the controller lies, if that is known.
    """
    by_controller = [
        _pins_on(profile, lines, keyboard, _kept(lines, old, number, profile))
        or _pins_on(profile, lines, keyboard, {})
        for number, profile in enumerate(profiles)
    ]
    if not all(by_controller):
        return None
    done = []
    for line in lines:
        pins = tuple(of_lines[line.name] for of_lines in by_controller if of_lines)
        before = tuple(word.text for word in _old_pins(line, old))
        done.append(changed(line, pins=pins, keeps_pins=pins == before))
    return done


def _kept(
    lines: Sequence[NewLine], old: Mapping[str, Sequence[Word]], number: int, profile: Profile
) -> dict[str, str]:
    """Return the pins that wires have on one of the file's controllers, as it has them."""
    kept: dict[str, str] = {}
    for line in lines:
        words = _old_pins(line, old)
        pin = profile.pin(words[number].text) if number < len(words) else None
        if pin and pin.is_usable:
            kept[line.name] = words[number].text
    return kept


def _old_pins(line: NewLine, old: Mapping[str, Sequence[Word]]) -> Sequence[Word]:
    """Return the pins of the wire that one goes on from; none where it is new."""
    return old.get(line.was.name.text, ()) if line.was else ()


def _pins_on(
    profile: Profile, lines: Sequence[NewLine], keyboard: Keyboard, kept: Mapping[str, str]
) -> dict[str, str] | None:
    """Return the pin of each wire on one controller; None where it has too few."""
    new = [line for line in lines if line.name not in kept]
    rows, columns = ([line for line in new if line.axis == axis] for axis in AXES)
    taken = {pin.name for word in kept.values() if (pin := profile.pin(word))}
    near = nearness(keyboard, profile, [line.keys[0] for line in new])
    far, drive = near.far if near else None, keyboard.wiring.drive
    chosen = choose_pins(profile, len(rows), len(columns), drive, taken, far)
    if chosen is None:
        return None
    found = dict(kept)
    for some, pins in ((rows, chosen.rows), (columns, chosen.columns)):
        if near:
            pins = near.matched([line.keys[0] for line in some], pins)
        words = (word_for(pin, profile, kept.values()) for pin in pins)
        found |= zip((line.name for line in some), words, strict=True)
    return found


def wired_anew(keyboard: Keyboard, lines: Sequence[NewLine], diode: str) -> Keyboard:
    """Return a keyboard with these wires, as if its file had them; all places are the plate's."""
    old, place = keyboard.wiring, keyboard.plate.span
    made = tuple(
        Line(
            axis=line.axis,
            name=Word(line.name, place),
            colour=None,
            visits=tuple(Word(key, place) for key in line.keys),
            span=place,
        )
        for line in lines
    )
    drive: Axis = old.drive if old.is_given else "column"
    rule = old.diodes
    if rule is None and keyboard.wants_diodes:
        rule = DiodeRule(Word(diode, place), drive, place)
    given = changed(old, lines=made, drive=drive, diodes=rule, is_given=True)
    return changed(keyboard, wiring=given)
