"""Writing a wiring that was learned into its file."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import count

from matrixgen.bench.dialogues.learn import Learned, driven
from matrixgen.boards import Profile, usual_diode, word_for
from matrixgen.fit.block import lines_text, wiring_block, with_block
from matrixgen.fit.new_wiring import NewLine
from matrixgen.fit.replace_head import with_head
from matrixgen.fit.replace_lines import with_lines
from matrixgen.format.wrap import INDENT, wrapped
from matrixgen.model import AXES, Axis, Design, Line, SourceText, Wiring, Word, other_axis
from matrixgen.model.runs import in_runs
from matrixgen.record import Record, changed


class ControllerInFile(Record):
    """One of the controllers that a file names, by its place among them: the one on the bench."""

    design: Design
    profile: Profile
    place: int

    @property
    def pin_words(self) -> dict[str, str]:
        """The word that the file has for the pin of each line of the controller."""
        pins = self.design.pins.items()
        return {line: words[self.place].text for line, words in pins if self.place < len(words)}

    def pin_of(self, line: Line) -> str | None:
        """Return the pin that the file has a line on."""
        word = self.pin_words.get(line.name.text)
        pin = self.profile.pin(word) if word else None
        return pin.name if pin else None

    def shown(self, pin: str) -> str:
        """Return a pin as the file names pins; where it names none, by the label on the board."""
        known, words = self.profile.pin(pin), self._words
        if known is None:
            return pin
        return word_for(known, self.profile, words) if words else known.label or known.name

    @property
    def _words(self) -> list[str]:
        """Every word that the file has for a pin of the controller."""
        parts = map(self.words_of_part, self.design.component_pins)
        return [*self.pin_words.values(), *(word.text for words in parts for word in words)]

    def words_of_part(self, called: str) -> tuple[Word, ...]:
        """Return the words that the file has for the pins of a light or a knob."""
        every = self.design.component_pins.get(called, ())
        return every[self.place] if self.place < len(every) else ()

    def row_pins(self) -> set[str]:
        """Return the pins that the file has rows on."""
        rows = self.design.keyboard.wiring.of_axis("row")
        return {pin for line in rows if (pin := self.pin_of(line))}


class UnknownPin(Exception):
    """A line is new in a file for several controllers: its pins on the others are not known."""


def lines_of(at: ControllerInFile, found: Learned) -> list[NewLine]:
    """Return the wires: those that the file has keep their names and colours."""
    made: list[NewLine] = []
    order = [key.name.text for key in at.design.keyboard.keys]
    taken = {line.name.text for line in at.design.keyboard.wiring.lines}
    for axis in AXES:
        by_pin = found.rows if axis == "row" else found.columns
        kept = _kept(at, axis, by_pin)
        fresh = (name for number in count() if (name := f"{axis[0]}{number}") not in taken)
        for pin, keys in by_pin.items():
            was = kept.get(pin)
            name = was.name.text if was else next(fresh)
            on_it = {*keys, *_open_on(was, found)}
            in_order = tuple(key for key in order if key in on_it)
            made.append(_line(at, NewLine(axis=axis, name=name, keys=in_order, was=was), pin))
        made += _open_lines(at, axis, found, kept.values())
    return made


def _open_on(was: Line | None, found: Learned) -> tuple[str, ...]:
    """Return the keys of a wire of the file of which nothing is known: they stay on it."""
    return tuple(word.text for word in was.visits if word.text in found.open) if was else ()


def _open_lines(
    at: ControllerInFile, axis: Axis, found: Learned, gone_on: Collection[Line]
) -> Iterator[NewLine]:
    """Yield the wires of the file of whose keys nothing is known, unless its pin is another's."""
    for line in at.design.keyboard.wiring.of_axis(axis):
        is_free = at.pin_of(line) not in {*found.rows, *found.columns}
        if line not in gone_on and is_free and (keys := _open_on(line, found)):
            pins = tuple(word.text for word in at.design.pins.get(line.name.text, ()))
            yield NewLine(axis=axis, name=line.name.text, keys=keys, pins=pins, was=line)


def _kept(
    at: ControllerInFile, axis: Axis, by_pin: Mapping[str, tuple[str, ...]]
) -> dict[str, Line]:
    """Return the wires of the file that go on, by the pins that they were found on.

    A wire that has the same keys is the same; else one on the same pin, or with half of its keys.
    """
    pairs = []
    for line in at.design.keyboard.wiring.of_axis(axis):
        old, on = {word.text for word in line.visits}, at.pin_of(line)
        for pin, keys in by_pin.items():
            shared = len(old & set(keys))
            worth = (old == set(keys), pin == on, shared)
            if worth[0] or worth[1] or (shared and shared * 2 >= len(old)):
                pairs.append((worth, line, pin))
    kept: dict[str, Line] = {}
    for _, line, pin in sorted(pairs, key=lambda pair: pair[0], reverse=True):
        if pin not in kept and line not in kept.values():
            kept[pin] = line
    return kept


def _line(at: ControllerInFile, line: NewLine, pin: str) -> NewLine:
    """Return a wire with its pins, and where its keys are those of before, in their old order."""
    was = line.was
    old = [word.text for word in at.design.pins.get(line.name, ())] if was else []
    pins = list(old)
    if was is None or at.pin_of(was) != pin:
        pins[at.place : at.place + 1] = [at.shown(pin)]
    if len(pins) < len(at.design.controllers):
        raise UnknownPin(pin)
    is_same = was is not None and {word.text for word in was.visits} == set(line.keys)
    keys = tuple(word.text for word in was.visits) if was and is_same else line.keys
    return changed(line, keys=keys, pins=tuple(pins), keeps_pins=pins == old)


def learned_text(at: ControllerInFile, found: Learned) -> str:
    """Return the file's text with a learned wiring; all else stays as it is."""
    design, wiring = at.design, at.design.keyboard.wiring
    order = {key.name.text: n for n, key in enumerate(design.keyboard.keys)}
    lines = lines_of(at, found)
    head = _head(found, wiring, order)
    if not wiring.is_given:
        words = [one for one in head.values() if one]
        return with_block(design.source, wiring_block([*words, *lines_text(lines, order)]))
    text = with_lines(design.source, lines, order)
    anew = {rule: head[rule] for rule in _changed(found, wiring)}
    return with_head(SourceText(design.source.path, text), anew) if anew else text


def _head(found: Learned, wiring: Wiring, order: dict[str, int]) -> dict[str, str | None]:
    """Return the statements before the wires by their rules, None where there is none."""
    drive = driven(found, wiring.drive)
    return {
        "drive": f"drive {drive}s, sense {other_axis(drive)}s",
        "diodes": _diodes(found, wiring),
        "without": _listed("without diode", _said(found, found.bare, wiring.without_diode), order),
        "reversed": _listed("reversed", _said(found, found.turned, wiring.reversed), order),
    }


def _diodes(found: Learned, wiring: Wiring) -> str | None:
    if found.band_toward is None:
        return None
    part = wiring.diodes.part.text if wiring.diodes else usual_diode().name
    part = part if part.replace("-", "").isalnum() else f'"{part}"'
    return f"diodes {part}, band toward {found.band_toward}s"


def _listed(words: str, keys: set[str], order: dict[str, int]) -> str | None:
    if not keys:
        return None
    in_order = sorted(keys, key=lambda key: order[key])
    return f"\n{INDENT * 2}".join(wrapped(words, in_runs(in_order, order), len(INDENT)))


def _said(found: Learned, keys: Iterable[str], in_file: Iterable[Word]) -> set[str]:
    """Return keys to be listed: those that were found, and of those that are open the file's."""
    return {*keys, *(word.text for word in in_file if word.text in found.open)}


def _changed(found: Learned, wiring: Wiring) -> Iterator[str]:
    """Yield the rules of the statements that have to say something else than they do.

    What is driven is said only where it does not follow from the bands.
    """
    band = wiring.diodes.band_toward if wiring.diodes else None
    drive = driven(found, wiring.drive)
    before = wiring.drive if wiring.says_drive else found.band_toward or "column"
    if drive != before:
        yield "drive"
    if band != found.band_toward:
        yield "diodes"
    for rule, keys, in_file in (
        ("without", found.bare, wiring.without_diode),
        ("reversed", found.turned, wiring.reversed),
    ):
        if {word.text for word in in_file} != _said(found, keys, in_file):
            yield rule
