"""Captions by what the computer makes of keys, where a file says what it is set to."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.draw.caption_form import CaptionForm, keycap_forms, shortened, with_modifiers
from matrixgen.layouts.key_words import KeyWords
from matrixgen.model.actions import InTurn, Pause, Struck, TurnStep
from matrixgen.usages.key_stroke import KeyStroke
from matrixgen.usages.us_layout import SIGNS

GOES_ON = "~"
"""What stands where a text or a turn goes on."""


def signs_pressed(stroke: KeyStroke, words: KeyWords) -> Iterator[CaptionForm]:
    """Yield the sign that a press makes appear, or modifiers and a key by its sign."""
    if sign := words.sign(stroke):
        yield CaptionForm(sign)
    elif sign := words.dead_sign(stroke):
        yield CaptionForm(f"dead {sign}")
        yield CaptionForm(f"d{sign}", ((f"d{sign}", f"dead key {sign}"),))
    else:
        name = words.key(stroke.usage) if stroke.modifiers else words.stroke(stroke)
        yield from with_modifiers(stroke.modifiers, list(_keys(stroke.usage, name)))


def _keys(usage: int, name: str) -> Iterator[CaptionForm]:
    if len(name) == 1:
        yield CaptionForm(name)
    elif usage in SIGNS:  # its keycap is that of a US layout
        yield from shortened(name, name)
    else:
        yield from keycap_forms(usage)


def in_turn(action: InTurn, words: KeyWords) -> Iterator[CaptionForm]:
    """Yield a sign, a text in quotes, or steps; then the beginning, which the legend explains."""
    said = action.said(words.stroke)
    first, *others = action.steps
    if others:
        yield CaptionForm(said)
        for form in _step_forms(first, words):
            yield CaptionForm(form.text + GOES_ON, ((form.text + GOES_ON, said), *form.legend))
        return
    for form in _step_forms(first, words):
        own = ((form.text, said),) if GOES_ON in form.text else ()
        yield CaptionForm(form.text, (*own, *form.legend))


def _step_forms(step: TurnStep, words: KeyWords) -> Iterator[CaptionForm]:
    match step:
        case Struck(stroke):
            yield from signs_pressed(stroke, words)
        case Pause():
            yield CaptionForm(step.phrase)
        case _:
            if cell := words.cell_of(step.strokes, step.text):
                yield CaptionForm(cell)
                return
            yield CaptionForm(f'"{step.text}"')
            for length in range(len(step.text) - 1, 0, -1):
                yield CaptionForm(f'"{step.text[:length]}{GOES_ON}"')
