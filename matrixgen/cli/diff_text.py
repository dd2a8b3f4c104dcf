"""What changed, for people: the headline, the work on the bench, pictures of the layers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.wrap import WIDTH, wrapped
from matrixgen.compare import KINDS, Change, Comparison
from matrixgen.draw import plate_text
from matrixgen.draw.plate_text import fits
from matrixgen.jobs.examine import Examined
from matrixgen.jobs.sides import found_in
from matrixgen.model import Key
from matrixgen.record import Record

NOTHING = {
    "solder": "nothing to solder",
    "reflash": "nothing to reflash",
    "cosmetic": "no cosmetic change",
}
"""What is said where a kind of change was asked for and there is none."""

COLOURS = {
    "solder": "\x1b[1;31m",
    "reflash": "\x1b[1;33m",
    "cosmetic": "\x1b[2m",
    "none": "\x1b[2m",
}
PLAIN = "\x1b[0m"

BELOW = "(below)"
"""What a layer that leaves a key alone does with it."""


class Shown(Record):
    """Both files, for their plates, and whether to use colour."""

    old: Examined
    new: Examined
    colour: bool

    def painted(self, words: str, kind: str) -> str:
        """Return words in the colour of a kind of change, if there is colour."""
        return f"{COLOURS[kind]}{words}{PLAIN}" if self.colour else words

    def cells(self, layer: str) -> dict[str, str]:
        """Return what a layer of the new file says of its keys, as it is written there."""
        layers = self.new.design.keyboard.layers if self.new.design else ()
        cells = (cell for one in layers if one.name.text == layer for cell in one.cells)
        return {cell.key.text: clean(cell.written.text) for cell in cells}

    @property
    def keys(self) -> tuple[Key, ...]:
        """The keys of the new plate."""
        return self.new.design.keyboard.keys if self.new.design else ()


def text(found: Comparison, shown: Shown, only: str | None = None) -> Iterator[str]:
    """Yield the lines of a report."""
    headline = found.headline if not only or found.changes else NOTHING[only]
    yield shown.painted(headline, found.kind)
    if found.matches.are_strangers:
        yield (
            f"these share {found.matches.shared} of {found.matches.most} key names: the others are "
            "shown as removed and added"
        )
    yield from _bench(found, shown)
    yield from _layers(found, shown)
    drawn = {id(change) for change in found.changes if _is_drawn(change)}
    for kind in KINDS:
        rest = [change for change in found.of_kind(kind) if id(change) not in drawn]
        if rest:
            yield ""
            yield shown.painted(kind, kind)
            for change in rest:
                yield from wrapped(f"{clean(change.text)}{_guess(change)}", "  ")
    yield from _findings(shown)


def _findings(shown: Shown) -> Iterator[str]:
    """Yield a line of what a check says of the sides that a build would not take."""
    said = [words for side in (shown.old, shown.new) if (words := found_in(side))]
    if said:
        yield ""
        yield from wrapped(clean("; ".join(said)), "")


def _bench(found: Comparison, shown: Shown) -> Iterator[str]:
    """Yield what to do with the iron, in order, and where on the plate."""
    if not found.steps:
        return
    yield ""
    yield "on the bench"
    wide = len(str(len(found.steps)))
    for number, step in enumerate(found.steps, start=1):
        yield from wrapped(clean(step.text), f"  {number:>{wide}}. ")
    there = {key.name.text for key in shown.keys}
    keys = [key for change in found.of_kind("solder") for key in change.keys if key in there]
    if keys and len(set(keys)) < len(there):
        yield ""
        yield from _picture(shown, dict.fromkeys(keys), "solder")


def _is_drawn(change: Change) -> bool:
    return change.slug == "key-on-layer"


def _layers(found: Comparison, shown: Shown) -> Iterator[str]:
    """Yield a picture of each layer on which keys have changed, and what they were and are."""
    of_layer: dict[str, dict[str, str]] = {}
    for change in found.changes:
        if change.slug == "layer-added" and change.layer:
            of_layer[change.layer] = shown.cells(change.layer)
        elif _is_drawn(change) and change.layer:
            old, new = (clean(words or BELOW) for words in (change.old, change.new))
            of_layer.setdefault(change.layer, {})[change.keys[0]] = f"{old} -> {new}"
    for layer, cells in of_layer.items():
        yield ""
        yield f"layer {clean(layer)}"
        yield from _picture(shown, cells, "reflash")
        wide = max(len(clean(key)) for key in cells)
        for key, words in cells.items():
            yield from wrapped(words, f"  {clean(key):<{wide}}  ")


def _picture(shown: Shown, keys: Iterable[str], kind: str) -> list[str]:
    """Return the plate with some keys marked: by name, or where there is no room, by a sign."""
    words = {key: f"[{clean(key)}]" for key in keys}
    if not fits(shown.keys, words, WIDTH - 2):
        words = dict.fromkeys(words, "#")
    lines = plate_text(shown.keys, words, WIDTH - 2)
    return [f"  {_coloured(line, shown, kind)}" for line in lines]


def _coloured(line: str, shown: Shown, kind: str) -> str:
    if not shown.colour:
        return line
    return (
        line.replace("[", f"{COLOURS[kind]}[")
        .replace("]", f"]{PLAIN}")
        .replace("#", f"{COLOURS[kind]}#{PLAIN}")
    )


def _guess(change: Change) -> str:
    return " (a guess: other matches are equally good)" if change.is_guess else ""
