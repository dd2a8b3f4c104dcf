"""What there is to say of the word under a pointer: a key, a pin, a layer, a finding's name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.boards import Mounted
from matrixgen.editor.file_words import FileWords, WordAt
from matrixgen.editor.names import Thing, things, uses
from matrixgen.editor.open_file import OpenText
from matrixgen.jobs.catalogue import find_problem
from matrixgen.model import Design, Diagnostic, Keyboard
from matrixgen.model.layers import BASE
from matrixgen.model.prose import listed
from matrixgen.source.phrases import FIRST_WORDS
from matrixgen.source.statements import BLOCKS, STATEMENTS


def explained(text: OpenText, word: WordAt, found: Iterable[Diagnostic] = ()) -> str | None:
    """Return Markdown on a word; the pages of the findings that are there come last."""
    parts = [*_of_word(text, word)]
    for thing in things(text.words, word):
        parts += [*_of_thing(text.words, thing, text.read.design, text.read.mounted)]
    parts += [page for one in found if (page := page_of(one.slug))]
    return "\n\n---\n\n".join(dict.fromkeys(parts)) or None


def page_of(slug: str) -> str | None:
    """Return the page of a kind of finding."""
    problem = find_problem(slug)
    return f"`{problem.slug}`\n\n{problem.page.strip()}" if problem else None


def _of_word(text: OpenText, word: WordAt) -> Iterator[str]:
    if word.terminal == "SLUG" and (page := page_of(word.text)):
        yield page
    if word.terminal == "PIN":
        yield from _pins(word.text, text.read.mounted)
    kind = BLOCKS.get(word.text) if word.span.column == 1 else STATEMENTS.get(word.rule)
    if kind and kind.keyword == word.text and word.terminal not in ("KEY", "CELL"):
        yield f"```keys\n{kind.form}\n```"
    phrase = FIRST_WORDS.get(word.text)
    if phrase and word.block in ("layer", "actions"):
        yield f"`{phrase.form}`"


def _of_thing(
    words: FileWords, thing: Thing, design: Design | None, mounted: Iterable[Mounted]
) -> Iterator[str]:
    if thing.kind == "key" and design:
        yield "\n".join(_key(thing.name, design.keyboard, mounted))
    elif thing.kind == "layer":
        yield "\n".join(_layer(words, thing, design))
    elif thing.kind == "action":
        yield "\n".join(_action(words, thing, design))
    elif thing.kind == "wire" and design:
        yield "\n".join(_wire(thing.name, design.keyboard, mounted))


def _key(name: str, keyboard: Keyboard, mounted: Iterable[Mounted]) -> Iterator[str]:
    yield f"**key `{name}`**\n"
    for layer in keyboard.layers:
        action = layer.action_of(name)
        if action is not None:
            yield f"- `layer {layer.name}`: {action.phrase}"
    lines = [one for one in keyboard.wiring.lines if name in {word.text for word in one.visits}]
    if len({one.axis for one in lines}) == 2 and len(lines) == 2:
        row, column = sorted(lines, key=lambda one: one.axis, reverse=True)
        yield f"- row `{row.name}` meets column `{column.name}`"
    elif lines:
        yield f"- only on {listed(f'{one.axis} `{one.name}`' for one in lines)}"
    for one in mounted:
        pins = [f"`{one.word_of(line)}`" for line in lines if one.word_of(line)]
        if pins:
            yield f"- pins of `{one.profile.name}`: {' and '.join(pins)}"


def _layer(words: FileWords, thing: Thing, design: Design | None) -> Iterator[str]:
    yield f"**layer `{thing.name}`**\n"
    if thing.name == BASE:
        yield "- always on, below all others"
    layers = design.keyboard.layers if design else ()
    for layer in layers:
        for cell in layer.cells:
            if cell.given and thing.name in cell.action.phrase.split():
                yield f"- `{cell.key}` on `layer {layer.name}`: {cell.action.phrase}"
        if layer.name.text == thing.name and layer.needs:
            yield f"- on while {listed(f'`{one}`' for one in layer.needs)} are on"
    if not design:
        yield f"- named in {len(uses(words, thing))} places"


def _action(words: FileWords, thing: Thing, design: Design | None) -> Iterator[str]:
    yield f"**action `{thing.name}`**\n"
    for one in design.keyboard.actions if design else ():
        if one.name.text == thing.name:
            yield f"- {one.action.phrase}"
    for layer in design.keyboard.layers if design else ():
        keys = [str(cell.key) for cell in layer.cells if cell.written.text == thing.name]
        if keys:
            yield f"- on `layer {layer.name}`: {listed(f'`{key}`' for key in keys)}"
    others = [one for one in uses(words, thing) if one.rule == "action" and not one.is_first]
    if others:
        yield f"- in {len(others)} other actions"


def _wire(name: str, keyboard: Keyboard, mounted: Iterable[Mounted]) -> Iterator[str]:
    for line in keyboard.wiring.lines:
        if line.name.text == name:
            does = "driven" if line.axis == keyboard.wiring.drive else "sensed"
            yield f"**{line.axis} `{name}`**: {does}, {len(line.visits)} keys\n"
            for one in mounted:
                if pin := one.pin_of(line):
                    yield f"- `{pin.shown}` of `{one.profile.name}`"


def _pins(word: str, mounted: Iterable[Mounted]) -> Iterator[str]:
    for one in mounted:
        pin = one.profile.pin(word)
        if pin:
            wires = [wired.line.name.text for wired in one.wired if wired.pin == pin]
            said = [f"**pin `{pin.shown}` of `{one.profile.name}`**\n", f"- {pin.use}"]
            said += [f"- also {pin.duty}"] * bool(pin.duty)
            said += [f"- {pin.advice}"] * bool(pin.advice)
            said += [f"- on the board: {pin.part}"] * bool(pin.part)
            said += [f"- wire {listed(f'`{wire}`' for wire in wires)} is on it"] * bool(wires)
            yield "\n".join(said)
