"""Writing a wiring that was learned into its file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import count
from pathlib import Path

from matrixgen.bench.learn import Learned, driven
from matrixgen.boards import Profile, usual_diode, word_for
from matrixgen.fit.block import line_text, with_block
from matrixgen.fit.new_wiring import NewLine
from matrixgen.fit.replace_lines import with_lines
from matrixgen.format.wrap import INDENT, wrapped
from matrixgen.jobs.examine import examine_text
from matrixgen.model import Axis, Design, Edit, Line, SourceText, Span, Wiring, other_axis
from matrixgen.model.runs import in_runs
from matrixgen.record import Record, changed
from matrixgen.source.edits import edited


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

    def row_pins(self) -> set[str]:
        """Return the pins that the file has rows on."""
        rows = map(self.pin_of, self.design.keyboard.wiring.of_axis("row"))
        return {pin for pin in rows if pin}


class UnknownPin(Exception):
    """A line is new in a file for several controllers: its pins on the others are not known."""


def lines_of(at: ControllerInFile, found: Learned) -> list[NewLine]:
    """Return the wires: those that the file has keep their names and colours."""
    made: list[NewLine] = []
    kinds: tuple[tuple[Axis, Mapping[str, tuple[str, ...]]], ...] = (
        ("row", found.rows),
        ("column", found.columns),
    )
    taken = {line.name.text for line in at.design.keyboard.wiring.lines}
    for axis, by_pin in kinds:
        kept = _kept(at, axis, by_pin)
        names = (f"{axis[0]}{number}" for number in count())
        fresh = (name for name in names if name not in taken)
        for pin, keys in by_pin.items():
            was = kept.get(pin)
            name = was.name.text if was else next(fresh)
            made.append(_line(at, NewLine(axis=axis, name=name, keys=keys, was=was), pin))
    return made


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
        pins[at.place : at.place + 1] = [_shown(at, pin)]
    if len(pins) < len(at.design.controllers):
        raise UnknownPin(pin)
    is_same = was is not None and {word.text for word in was.visits} == set(line.keys)
    keys = tuple(word.text for word in was.visits) if was and is_same else line.keys
    return changed(line, keys=keys, pins=tuple(pins), keeps_pins=pins == old)


def _shown(at: ControllerInFile, pin: str) -> str:
    """Return a pin as the file names pins; where it has none, by the label on the board."""
    known, words = at.profile.pin(pin), at.pin_words.values()
    if known is None:
        return pin
    return word_for(known, at.profile, words) if words else known.label or known.name


def learned_text(at: ControllerInFile, found: Learned) -> str:
    """Return the file's text with a learned wiring; all else stays as it is."""
    design, wiring = at.design, at.design.keyboard.wiring
    order = {key.name.text: n for n, key in enumerate(design.keyboard.keys)}
    lines = lines_of(at, found)
    if not wiring.is_given:
        head = list(_head(found, wiring, order))
        body = [*head, *(line_text(line, lines, order) for line in lines)]
        block = "wiring\n" + "".join(f"{INDENT}{one}\n" for one in body)
        return with_block(design.source, block)
    text = with_lines(design.source, lines, order)
    return text if _is_same(found, wiring) else _with_head(at, text, found, order)


def _head(found: Learned, wiring: Wiring, order: dict[str, int]) -> Iterator[str]:
    """Yield the statements before the wires."""
    drive = driven(found, wiring.drive)
    yield f"drive {drive}s, sense {other_axis(drive)}s"
    if found.band_toward:
        part = wiring.diodes.part.text if wiring.diodes else usual_diode().name
        part = part if part.replace("-", "").isalnum() else f'"{part}"'
        yield f"diodes {part}, band toward {found.band_toward}s"
    for word, keys in (("without diode", found.bare), ("reversed", found.turned)):
        if keys:
            yield f"\n{INDENT * 2}".join(wrapped(word, in_runs(keys, order), len(INDENT)))


def _is_same(found: Learned, wiring: Wiring) -> bool:
    """Whether a file's wiring says the same of its diodes."""
    band = wiring.diodes.band_toward if wiring.diodes else None
    exceptions = ({w.text for w in wiring.without_diode}, {w.text for w in wiring.reversed})
    return (
        wiring.drive == driven(found, wiring.drive)
        and band == found.band_toward
        and exceptions == (set(found.bare), set(found.turned))
    )


def _with_head(at: ControllerInFile, text: str, found: Learned, order: dict[str, int]) -> str:
    """Return a text whose block `wiring` says something else of what is driven and of diodes."""
    path = at.design.source.path
    source = SourceText(path, text)
    after = examine_text(path, text, Path(path).parent)
    assert after.design, "wires that were learned can be read"
    wiring = after.design.keyboard.wiring
    below = Span.in_line(path, wiring.keyword.line + 1, 1, 0)
    said = "".join(f"{INDENT}{one}\n" for one in _head(found, wiring, order))
    edits = [Edit(below, said), *map(Edit.removing_lines, _old_head(source, wiring))]
    done = edited(source, edits)
    assert done is not None, "statements do not overlap"
    return done


def _old_head(source: SourceText, wiring: Wiring) -> Sequence[Span]:
    """Return the statements of a block `wiring` that are said anew, each with what goes on it."""
    words = ("drive", "diodes", "without", "reversed", "and")
    found, goes_on = [], False
    for number in range(wiring.keyword.line + 1, wiring.span.end_line + 1):
        word = (source.line(number).split() or [""])[0]
        goes_on = word in words[:4] or (goes_on and word == "and")
        if goes_on:
            found.append(Span.in_line(source.path, number, 1, 1))
    return found
