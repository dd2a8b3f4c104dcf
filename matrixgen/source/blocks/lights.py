"""A light of the block `wiring`: what is soldered, and what it shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.layers import BASE
from matrixgen.model.light import (
    LIGHT_COLOURS,
    LOCKS,
    SPREAD_VOLTS,
    USUAL_COLOUR,
    USUAL_MILLIAMPERES,
    USUAL_SIDE,
    Light,
    LightSide,
)
from matrixgen.model.prose import quoted
from matrixgen.model.text import Edit, Word
from matrixgen.similar import similar_name
from matrixgen.source.names import is_layer
from matrixgen.source.reporter import Reporter, tokens, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node


def light_of(reporter: Reporter, statement: Node, layers: Sequence[str]) -> Light:
    """Return a light as it is wired; `layers` are the names of all layers."""
    parts = {str(part.data): part for part in trees(statement)}
    limits = reporter.limits
    name = reporter.word(tokens(statement)[0])
    needed = _layers(reporter, parts.get("shown"), layers)
    lock = _lock(reporter, name, is_for_layers="shown" in parts)
    colour = _colour(reporter, statement)
    volts = _figure(reporter, parts.get("forward"), (limits.least_volts, limits.volts), "volts")
    current = _figure(
        reporter,
        parts.get("current"),
        (limits.least_milliamperes, limits.milliamperes),
        "milliamperes",
    )
    usual = LIGHT_COLOURS.get(colour, LIGHT_COLOURS[USUAL_COLOUR])
    return Light(
        name=name,
        lock=lock,
        layers=needed,
        side=_side(parts.get("leads")),
        colour=colour,
        forward=(usual.least, usual.most)
        if volts is None
        else (volts - SPREAD_VOLTS, volts + SPREAD_VOLTS),
        milliamperes=USUAL_MILLIAMPERES if current is None else current,
        span=reporter.whole(statement),
    )


def _layers(reporter: Reporter, shown: Node | None, layers: Sequence[str]) -> tuple[Word, ...]:
    """Return the layers that have to be on, each once; report those that make no sense."""
    found: dict[str, Word] = {}
    for word in map(reporter.word, tokens(shown, "LAYER_NAME") if shown else ()):
        if word.text == BASE:
            message = "`base` is always on, so the light would always be lit"
            help = "name a layer that keys turn on"
            reporter.report("layer-always-on", word.span, message, help=help)
        elif is_layer(reporter, word, layers) and word.text in found:
            message = f"`{word}` is named a second time"
            reporter.report("duplicate-needed-layer", word.span, message, help="name it once")
        found.setdefault(word.text, word)
    return tuple(found.values())


def _lock(reporter: Reporter, name: Word, *, is_for_layers: bool) -> str | None:
    """Return the lock that a light shows by its name; report one that shows nothing, or both."""
    lock = name.text if name.text in LOCKS else None
    if lock and is_for_layers:
        reporter.report(
            "light-with-two-meanings",
            name.span,
            f"the light `{name}` shows what the computer says, and cannot show layers",
            help="give the light of a layer another name",
        )
    elif not (lock or is_for_layers):
        _report_unknown(reporter, name)
    return None if is_for_layers else lock


def _report_unknown(reporter: Reporter, name: Word) -> None:
    spelt = next((one for one in LOCKS if one.casefold() == name.text.casefold()), None)
    near = spelt or similar_name(name.text, LOCKS)
    reporter.report(
        "unknown-light",
        name.span,
        f"no computer knows a light `{name}`, and no layer is named for it",
        help=(
            f"write `{near}` if you mean that light"
            if near
            else f"a computer knows {quoted(LOCKS)}",
            f"write `light {name} on PIN while LAYER is on` for a layer's light",
        ),
        fix=Fix(f"write `{spelt}` for `{name}`", (Edit(name.span, spelt),)) if spelt else None,
    )


def _colour(reporter: Reporter, statement: Node) -> str:
    given = [reporter.word(token) for token in tokens(statement, "LIGHT_COLOUR")]
    for word in given:
        if word.text not in LIGHT_COLOURS:
            near = similar_name(word.text, LIGHT_COLOURS)
            known = f"there is {quoted(LIGHT_COLOURS, 'or')}"
            reporter.report(
                "unknown-light-colour",
                word.span,
                f"`{word}` is not the colour of an LED that is known here",
                help=(
                    f"write `{near}`" if near else known,
                    "the forward voltage tells the LED apart: write it too, as in `red 1.9 V`",
                ),
            )
    return given[0].text if given else USUAL_COLOUR


def _side(leads: Node | None) -> LightSide:
    if leads is None:
        return USUAL_SIDE
    (side,) = tokens(leads)
    return "supply" if side == "supply" else "ground"


def _figure(
    reporter: Reporter, part: Node | None, ends: tuple[float, float], unit: str
) -> float | None:
    """Return the number of a part of the statement; report one that no LED has."""
    if part is None:
        return None
    token = tokens(part, "NUMBER")[0]
    return reporter.number_in(token, *ends, f"the number of {unit}").value
