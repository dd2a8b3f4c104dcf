"""`layer NAME while A and B are on`: the layers that another one needs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.layers import BASE, Layer
from matrixgen.model.prose import quoted
from matrixgen.model.text import Word
from matrixgen.source.names import is_layer
from matrixgen.source.reporter import Reporter, tokens

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node


def needs_of(reporter: Reporter, block: Node, layers: Sequence[str]) -> tuple[Word, ...]:
    """Return the layers that a block's layer needs, each once; report those that make no sense."""
    name, *words = map(reporter.word, tokens(block))
    if words and name.text == BASE:
        reporter.report(
            "layer-always-on",
            name.span,
            "`base` is always on, so nothing turns it on",
            help="remove what follows its name",
        )
        return ()
    found: dict[str, Word] = {}
    for word in words:
        if word.text in found:
            _report_twice(reporter, word, found[word.text])
        elif _can_be_needed(reporter, name, word, layers):
            found[word.text] = word
    return tuple(found.values())


def _can_be_needed(reporter: Reporter, name: Word, word: Word, layers: Sequence[str]) -> bool:
    """Whether a layer can be needed by another one; report where it cannot."""
    if word.text == BASE:
        reporter.report(
            "layer-always-on",
            word.span,
            f"`base` is always on, so `{name}` need not wait for it",
            help="name at least two layers that keys turn on",
        )
        return False
    return is_layer(reporter, word, layers)


def _report_twice(reporter: Reporter, word: Word, first: Word) -> None:
    reporter.report(
        "duplicate-needed-layer",
        word.span,
        f"`{word}` is named a second time",
        help="name at least two different layers",
        notes=[Note("it is first named here", first.span)],
    )


def report_circles(reporter: Reporter, layers: Sequence[Layer]) -> None:
    """Report each layer that needs itself, by others or not, once a circle."""
    needs = {layer.name.text: [word.text for word in layer.needs] for layer in layers}
    reported: set[str] = set()
    for layer in layers:
        name = layer.name.text
        circle = _circle(name, needs)
        if circle and not reported & set(circle):
            reported.update(circle)
            _report_circle(reporter, layer, circle)


def _circle(start: str, needs: dict[str, list[str]]) -> list[str]:
    """Return the shortest way from a layer by what it needs back to it; empty if there is none."""
    ways = [[start]]
    seen: set[str] = set()
    for way in ways:  # it grows
        for name in needs.get(way[-1], ()):
            if name == start:
                return way
            if name not in seen:
                seen.add(name)
                ways.append([*way, name])
    return []


def _report_circle(reporter: Reporter, layer: Layer, circle: Sequence[str]) -> None:
    name, following = layer.name.text, [*circle[1:], layer.name.text][0]
    word = next(word for word in layer.needs if word.text == following)
    by = f", by way of {quoted(circle[1:])}" if circle[1:] else ""
    reporter.report(
        "layer-that-needs-itself",
        word.span,
        f"`{name}` needs itself to be on{by}",
        help="name layers that keys turn on",
    )
