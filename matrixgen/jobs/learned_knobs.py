"""Writing the pins of knobs that were turned into a file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matrixgen.fit.block import filled_block, wiring_block, with_block
from matrixgen.format.rows import aligned
from matrixgen.format.statements import component_row
from matrixgen.format.wrap import INDENT
from matrixgen.jobs.learned_text import ControllerInFile, UnknownPin
from matrixgen.model import Design, Edit, SourceText
from matrixgen.model.knob import Knob
from matrixgen.record import changed
from matrixgen.source.edits import edited

KnobPins = Mapping[str, Sequence[str]]
"""The pins of knobs by their names: of A, which leads to the right, and of B."""


def knob_pins_in_file(at: ControllerInFile) -> dict[str, tuple[str, ...]]:
    """Return the pins that the file has each knob on, by the profile's names."""
    found = {}
    for knob in at.design.keyboard.wiring.knobs:
        pins = [at.profile.pin(word.text) for word in at.words_of_part(knob.called)]
        found[knob.name.text] = tuple(pin.name for pin in pins if pin)
    return found


def with_knobs_moved(at: ControllerInFile, turned: KnobPins) -> Design:
    """Return the file with other pins in its statements of knobs. No line is added or lost."""
    edits = []
    for knob in at.design.keyboard.wiring.knobs:
        words = at.words_of_part(knob.called)
        for word, pin in zip(words, turned.get(knob.name.text, ()), strict=False):
            known = at.profile.pin(word.text)
            if known is None or known.name != pin:
                edits.append(Edit(word.span, at.shown(pin)))
    source = at.design.source
    text = edited(source, edits)
    assert text is not None, "each word is in one place"
    return changed(at.design, source=SourceText(source.path, text))


def knob_texts(knobs: Mapping[str, Sequence[str]]) -> list[str]:
    """Return the statements of knobs on these pins, in columns as `fmt` has them."""
    rows = [component_row(Knob.kind, knob, f"on {' '.join(pins)}") for knob, pins in knobs.items()]
    return [lines[0] for lines in aligned(rows, len(INDENT))]


def with_new_knobs(at: ControllerInFile, text: str, turned: KnobPins) -> str:
    """Return a file's text with those knobs that were only on its plate, or on no pins yet.

    Raises `UnknownPin` in a file for several controllers: the pins on the others are not known.
    """
    wiring = at.design.keyboard.wiring
    wired = {knob.name.text for knob in wiring.knobs}
    new = {knob: pins for knob, pins in turned.items() if knob not in wired}
    if not new:
        return text
    if len(at.design.controllers) > 1:
        raise UnknownPin(next(iter(new.values()))[0])
    rows = knob_texts({knob: [at.shown(pin) for pin in pins] for knob, pins in new.items()})
    source = SourceText(at.design.source.path, text)
    if not wiring.is_given and text == at.design.source.original:
        return with_block(source, wiring_block(rows))
    return filled_block(source, rows)
