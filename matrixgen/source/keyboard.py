"""The block `keyboard`: what the keyboard is called and what it is built on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.keyboard import Identity
from matrixgen.model.record import record
from matrixgen.model.span import Number, Span, Word
from matrixgen.source.names import in_range
from matrixgen.source.reading import Reading, tokens, trees
from matrixgen.source.statements import statements_once

if TYPE_CHECKING:
    from matrixgen.source.parser import Node

DEFAULT_DEBOUNCE_MS = 5
DEBOUNCE_MS = (1, 200)
ONCE = frozenset({"controller", "debounce", "maker", "usb"})


@record
class Settings:
    """What the block says. `controllers` is empty where the file has none, which was reported."""

    identity: Identity
    controllers: tuple[Word, ...]
    debounce_ms: Number
    allowed: tuple[Word, ...]


def keyboard_settings(reading: Reading, block: Node) -> Settings:
    """Return what the block `keyboard` says; report what is missing, doubled or out of range."""
    statements = trees(block)
    once = statements_once(reading, [part for part in statements if part.data in ONCE])
    product = _string(reading, block)
    maker = _string(reading, once["maker"]) if "maker" in once else None
    vendor, number = _usb_ids(once.get("usb"))
    allowed = [word for part in statements if part.data == "allow" for word in tokens(part)]
    return Settings(
        Identity(product, maker, vendor, number),
        _controllers(reading, block, once.get("controller")),
        _debounce(reading, once.get("debounce"), product.span),
        tuple(map(reading.word, allowed)),
    )


def _string(reading: Reading, tree: Node) -> Word:
    """Return a statement's string, which has to fit into a USB string descriptor."""
    words = reading.text(tokens(tree)[0])
    units, most = len(words.text.encode("utf-16-le")) // 2, reading.limits.string_units
    if not words.text.strip():
        message, help = "there is no name between the quotes", 'write one, as in `"Heron 12"`'
        reading.report("syntax", words.span, message, help=help)
    if units > most:
        message = f"this text takes {units} units of UTF-16; a USB string holds {most}"
        reading.report("over-the-limit", words.span, message)
    return words


def _controllers(reading: Reading, block: Node, statement: Node | None) -> tuple[Word, ...]:
    if statement is not None:
        return _each_once(reading, tuple(map(reading.text, tokens(statement))))
    if not reading.was_dropped("controller"):
        reading.report(
            "missing-statement",
            reading.keyword(block, len("keyboard")),
            "the block `keyboard` names no controller",
            help="add a line `controller NAME`; `matrixgen boards` lists the names",
        )
    return ()


def _each_once(reading: Reading, controllers: tuple[Word, ...]) -> tuple[Word, ...]:
    """Return the controllers as they are; report each that was named before."""
    first: dict[str, Word] = {}
    for word in controllers:
        if first.setdefault(word.text, word) is not word:
            reading.report(
                "doubled-controller",
                word.span,
                f"`{word}` is named a second time",
                help="name each controller once, and give each line a pin on each",
                notes=[Note(f"`{word}` is first named here", first[word.text].span)],
            )
    return controllers


def _debounce(reading: Reading, statement: Node | None, default: Span) -> Number:
    if statement is None:
        return Number(DEFAULT_DEBOUNCE_MS, default)
    number = reading.number(tokens(statement)[0])
    in_range(reading, number.value, *DEBOUNCE_MS, number.span, "the time in ms")
    return number


def _usb_ids(statement: Node | None) -> tuple[int | None, int | None]:
    if statement is None:
        return None, None
    vendor, product = tokens(statement)[0].split(":")
    return int(vendor, 16), int(product, 16)
