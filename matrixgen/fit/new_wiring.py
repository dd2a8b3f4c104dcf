"""From a layout to the wires of a file: their names, pins, colours and keys."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from typing import Any

from matrixgen.boards import Profile, word_for
from matrixgen.fit.layout import Layout
from matrixgen.fit.pins import choose_pins
from matrixgen.model import AXES, Axis, DiodeRule, Keyboard, Line, Span, Wiring, Word
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
        """Whether it is the wire that it goes on from, key by key, on the same pins."""
        was = self.was and tuple(word.text for word in self.was.visits)
        return self.keeps_pins and self.keys == was

    @property
    def colour(self) -> str | None:
        """The colour of the wire that it goes on from."""
        return self.was.colour.text if self.was and self.was.colour else None


def new_lines(keyboard: Keyboard, layout: Layout) -> list[NewLine]:
    """Return the wires of a layout, rows first.

    A wire that has half of the keys of one that the file has, or more, keeps its name.
    """
    names = [key.name.text for key in keyboard.keys]
    taken = {line.name.text for line in keyboard.wiring.lines}
    found: list[NewLine] = []
    for axis, runs in zip(AXES, (layout.rows, layout.columns), strict=True):
        keys = [tuple(names[key] for key in run) for run in runs]
        kept = _survivors(keyboard.wiring.of_axis(axis), keys)
        fresh = _fresh_names(FIRST_LETTER[axis], taken)
        for of_line, was in zip(keys, kept, strict=True):
            name = was.name.text if was else next(fresh)
            found.append(NewLine(axis=axis, name=name, keys=of_line, was=was))
    return found


def _fresh_names(letter: str, taken: set[str]) -> Iterator[str]:
    number = 0
    while True:
        name = f"{letter}{number}"
        if name not in taken:
            yield name
        number += 1


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
    drive: Axis,
    old: Mapping[str, Sequence[Word]],
) -> list[NewLine] | None:
    """Return wires with a pin of each controller; None where one of those has too few.

    `old` has the pins of the file's wires by their names, one a controller: a wire that goes on
    from one of them keeps its pin, if it can.
    """
    by_controller = [
        _pins_on(profile, lines, drive, _kept(lines, old, number, profile))
        or _pins_on(profile, lines, drive, {})
        for number, profile in enumerate(profiles)
    ]
    if not all(by_controller):
        return None
    done = []
    for line in lines:
        pins = tuple(of_lines[line.name] for of_lines in by_controller if of_lines)
        before = tuple(word.text for word in old.get(line.name, ()))
        done.append(changed(line, pins=pins, keeps_pins=pins == before))
    return done


def _kept(
    lines: Sequence[NewLine], old: Mapping[str, Sequence[Word]], number: int, profile: Profile
) -> dict[str, str]:
    """Return the pins that wires have on one of the file's controllers, as it has them."""
    kept: dict[str, str] = {}
    for line in lines:
        words = old.get(line.name, ()) if line.was else ()
        pin = profile.pin(words[number].text) if number < len(words) else None
        if pin and pin.is_usable:
            kept[line.name] = words[number].text
    return kept


def _pins_on(
    profile: Profile, lines: Sequence[NewLine], drive: Axis, kept: Mapping[str, str]
) -> dict[str, str] | None:
    """Return the pin of each wire on one controller; None where it has too few."""
    fresh = {
        axis: [one.name for one in lines if one.axis == axis and one.name not in kept]
        for axis in AXES
    }
    taken = {pin.name for word in kept.values() if (pin := profile.pin(word))}
    chosen = choose_pins(profile, len(fresh["row"]), len(fresh["column"]), drive, taken)
    if chosen is None:
        return None
    names = [*fresh["row"], *fresh["column"]]
    found = (*chosen.rows, *chosen.columns)
    pins = [word_for(pin, profile, kept.values()) for pin in found]
    return dict(kept) | dict(zip(names, pins, strict=True))


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
    given = changed(old, lines=made)
    return changed(keyboard, wiring=given if old.is_given else _usual(given, diode, place))


def _usual(wiring: Wiring, diode: str, place: Span) -> Wiring:
    """Return a wiring with what `fit` writes where a file says nothing."""
    rule = DiodeRule(Word(diode, place), "column", place)
    return changed(wiring, drive="column", diodes=rule, is_given=True)
