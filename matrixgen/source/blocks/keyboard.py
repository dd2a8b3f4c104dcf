"""The block `keyboard`: what it is called, what it may be mounted on, what is not reported."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.design import Allowance
from matrixgen.model.diagnostic import Note
from matrixgen.model.keyboard import BootLoader, Identity, Keyboard
from matrixgen.model.old_slugs import current_slug
from matrixgen.model.plate import Plate
from matrixgen.model.text import Number, Span, Word
from matrixgen.record import Record
from matrixgen.source.blocks.given_once import once_each
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.blocks.speeds import POINTER_STEPS, WHEEL_STEPS, speed_in
from matrixgen.source.blocks.together import WITHIN_MS
from matrixgen.source.blocks.wiring import no_wiring
from matrixgen.source.phrases.decisions import AFTER_MS, ROLL_MS
from matrixgen.source.reporter import Reporter, every_token, tokens, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token

DEFAULT_DEBOUNCE_MS = 5
DEBOUNCE_MS = (1, 200)
PRESS_MS = (0, 50)
ONCE_MS = (100, 60_000)
PACE_MS = (1, 100)


class Settings(Record):
    """What the block says: `keyboard` is still without wiring, actions and layers."""

    keyboard: Keyboard
    controllers: tuple[Word, ...] = ()
    allowances: tuple[Allowance, ...] = ()

    @property
    def tap_hold(self) -> dict[str, int]:
        """The times that keys with two meanings have unless they say others, by their fields."""
        said = {"after_ms": self.keyboard.hold_after_ms, "roll_ms": self.keyboard.roll_ms}
        return {field: int(number.value) for field, number in said.items() if number}


def unsaid(plate: Plate, head: Span) -> Keyboard:
    """Return a keyboard of which only the plate is known; `head` stands for all other places."""
    return Keyboard(
        identity=Identity(None, None, None, None),
        debounce_ms=Number(DEFAULT_DEBOUNCE_MS, head),
        plate=plate,
        wiring=no_wiring(head),
        actions=(),
        layers=(),
    )


def settings_of(reporter: Reporter, block: Node, keys: Keys, bare: Keyboard) -> Settings:
    """Return what the block says of a keyboard; report what is doubled or out of range."""
    parts = trees(block)
    once = once_each(reporter, parts)
    product = _string(reporter, block)
    maker = _string(reporter, once["maker"]) if "maker" in once else None
    keyboard = Keyboard(
        plate=bare.plate,
        wiring=bare.wiring,
        actions=bare.actions,
        layers=bare.layers,
        identity=Identity(product, maker, *_usb_ids(once.get("usb"))),
        debounce_ms=_debounce(reporter, once.get("debounce"), product.span),
        press_ms=_press(reporter, once.get("debounce")),
        once_ms=_time(reporter, once.get("once_lasts"), ONCE_MS),
        pace_ms=_time(reporter, once.get("pace"), PACE_MS),
        hold_after_ms=_whole_time(reporter, once.get("hold_after"), AFTER_MS),
        roll_ms=_whole_time(reporter, once.get("roll_within"), ROLL_MS),
        together_ms=_whole_time(reporter, once.get("together_within"), WITHIN_MS),
        remember_base=reporter.whole(once["remember"]) if "remember" in once else None,
        pointer=speed_in(reporter, once.get("pointer"), POINTER_STEPS),
        wheel=speed_in(reporter, once.get("wheel"), WHEEL_STEPS),
        boot_loader=_boot_loader(reporter, once, keys),
    )
    allowances = _allowances(reporter, [part for part in parts if part.data == "allow"], keys)
    return Settings(keyboard, _controllers(reporter, once.get("controller")), allowances)


def _string(reporter: Reporter, tree: Node) -> Word:
    """Return a statement's string, which has to fit into a USB string descriptor."""
    words = reporter.text(tokens(tree)[0])
    units, most = len(words.text.encode("utf-16-le")) // 2, reporter.limits.string_units
    if not words.text.strip():
        message, help = "there is no name between the quotes", 'write one, as in `"Heron 12"`'
        reporter.report("syntax", words.span, message, help=help)
    if units > most:
        message = f"this text takes {units} units of UTF-16; a USB string holds {most}"
        reporter.report("over-the-limit", words.span, message)
    return words


def _controllers(reporter: Reporter, statement: Node | None) -> tuple[Word, ...]:
    """Return the controllers as they are; report each that was named before."""
    controllers = tuple(map(reporter.text, every_token(statement))) if statement else ()
    most, spans = reporter.limits.controllers, [one.span for one in controllers]
    if not reporter.at_most(most, spans, "controller", "a file"):
        return controllers[:most]
    first: dict[str, Word] = {}
    for word in controllers:
        if first.setdefault(word.text, word) is not word:
            reporter.report(
                "duplicate-controller",
                word.span,
                f"`{word}` is named a second time",
                help="name each controller once, and give each wire a pin on each",
                notes=[Note(f"`{word}` is first named here", first[word.text].span)],
            )
    return controllers


def _debounce(reporter: Reporter, statement: Node | None, default: Span) -> Number:
    if statement is None:
        return Number(DEFAULT_DEBOUNCE_MS, default)
    return _milliseconds(reporter, tokens(statement)[0], DEBOUNCE_MS)


def _press(reporter: Reporter, statement: Node | None) -> Number | None:
    """Return how long a press must last; None where the first reading counts, as with 0."""
    words = every_token(statement)[1:] if statement else []
    number = _milliseconds(reporter, words[0], PRESS_MS) if words else None
    return number if number and number.value else None


def _time(reporter: Reporter, statement: Node | None, bounds: tuple[int, int]) -> Number | None:
    return _milliseconds(reporter, tokens(statement)[0], bounds) if statement else None


def _whole_time(
    reporter: Reporter, statement: Node | None, bounds: tuple[int, int]
) -> Number | None:
    """Return a time that has to be a whole number, as where an action says it."""
    number = reporter.number(tokens(statement)[0]) if statement else None
    if number:
        reporter.is_whole_in(number, *bounds, "the time in ms")
    return number


def _milliseconds(reporter: Reporter, token: Token, bounds: tuple[int, int]) -> Number:
    return reporter.number_in(token, *bounds, "the time in ms")


def _usb_ids(statement: Node | None) -> tuple[int | None, int | None]:
    if statement is None:
        return None, None
    vendor, product = tokens(statement)[0].split(":")
    return int(vendor, 16), int(product, 16)


def _boot_loader(reporter: Reporter, once: dict[str, Node], keys: Keys) -> BootLoader:
    hold, double_reset = once.get("boot_hold"), once.get("double_reset")
    return BootLoader(
        keys.listed(hold) if hold else (),
        reporter.whole(hold) if hold else None,
        reporter.whole(double_reset) if double_reset else None,
    )


def _allowances(reporter: Reporter, parts: list[Node], keys: Keys) -> tuple[Allowance, ...]:
    most, spans = reporter.limits.allowances, [reporter.whole(part) for part in parts]
    help = "name all keys, pins or layers that a warning is about in one `allow`"
    reporter.at_most(most, spans, "`allow`", "a file", help)
    return tuple(_allowance(reporter, part, keys) for part in parts[:most])


def _allowance(reporter: Reporter, statement: Node, keys: Keys) -> Allowance:
    """Return a warning that is not reported. Whether it and its places exist is for a rule."""
    word = reporter.word(tokens(statement)[0])
    slug = Word(current_slug(word.text), word.span)
    return Allowance(slug, word.text, keys.places(statement), reporter.whole(statement))
