"""The block `actions`, and what a cell of a layer stands for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from matrixgen.model.actions import (
    Action,
    HoldLayer,
    LatchLayer,
    Nothing,
    Press,
    StartBootLoader,
)
from matrixgen.model.keyboard import BASE, NamedAction
from matrixgen.model.span import Word
from matrixgen.source.names import Names, near_help
from matrixgen.source.reading import Reading, tokens, trees
from matrixgen.usages import is_consumer_word, is_spelling, modifier_bit, usage_of, words

if TYPE_CHECKING:
    from lark import Token

    from matrixgen.source.parser import Node


class Cells:
    """The words that a cell may hold: the names of the block `actions`, and the usages."""

    def __init__(self, reading: Reading, block: Node | None) -> None:
        self._reading = reading
        self._names: set[str] = (
            {str(tokens(action)[0]) for action in trees(block)} if block else set()
        )
        self._actions: dict[str, Action | None] = {}
        self._read: dict[str, Action] = {}

    def define(self, name: str, action: Action | None) -> None:
        """Let cells use `name`; None where its own definition was reported."""
        self._actions[name] = action

    def knows(self, name: str) -> bool:
        """Whether `name` is an action's."""
        return name in self._names

    def action_of(self, token: Token) -> Action | None:
        """Return what a cell does; report it and return None where it is no known word."""
        found = self._read.get(token)
        if found is None:
            found = self._actions[token] if token in self._actions else self.press_of(token)
            if found is not None:
                self._read[str(token)] = found
        return found

    def press_of(self, token: Token) -> Press | None:
        """Return the usage and modifiers that a word like `Ctrl+C` names; report others."""
        *names, last = token.split("+")
        modifiers, start = 0, 0
        for name in names:
            bit = self._modifier(token, name, start)
            if not bit:
                return None
            modifiers |= bit
            start += len(name) + 1
        usage = self._usage(last)
        if usage is None:
            self._unknown(token, last, start)
            return None
        bit = modifier_bit(usage)
        return Press(0, modifiers | bit) if bit else Press(usage, modifiers)

    def _modifier(self, token: Token, name: str, start: int) -> int:
        """Return the bit of a modifier; report another word before a `+` and return 0."""
        usage = self._usage(name)
        if usage is None:
            self._unknown(token, name, start)
            return 0
        bit = modifier_bit(usage)
        if not bit:
            self._reading.report(
                "not-a-modifier",
                self._reading.part(token, start, len(name)),
                f"`{name}` is no modifier, so nothing can be added to it",
                help="before `+` stands Ctrl, Shift, Alt, GUI, or one of them with Left or Right",
            )
        return bit

    def _usage(self, name: str) -> int | None:
        """Return the usage of a word; None for an action's name, even if it looks like a usage."""
        return None if name in self._names else usage_of(name)

    def _unknown(self, token: Token, name: str, start: int) -> None:
        if self._reading.was_dropped(name) or self._reading.was_dropped(token):
            return
        self._reading.report(
            "unknown-usage",
            self._reading.part(token, start, len(name)),
            f"`{name}` is no key of the keyboard page and no name of the block `actions`",
            help=self._help(name),
        )

    def _is_press(self, word: str) -> bool:
        """Whether a word is modifiers and a key, or would be with these joints."""
        *names, last = word.split("+")
        bits = (modifier_bit(self._usage(name) or 0) for name in names)
        return bool(names) and all(bits) and self._usage(last) is not None

    def _help(self, name: str) -> str | None:
        if name in self._names:
            return f"`{name}` is an action, not a key: write what it does in full"
        if name in _PHRASES:
            return f"define it in the block `actions`, as in `my-name = {_PHRASES[name]}`"
        if self._is_press(name.replace("-", "+")):
            return f"write `{name.replace('-', '+')}`"
        if is_consumer_word(name):
            return "keys for sound, playing and programs (consumer page 0x0C) cannot be sent yet"
        return near_help(name, [*self._actions, *words()])


_PHRASES = {
    "nothing": "nothing",
    "hold": "hold layer NAME",
    "latch": "latch layer NAME",
    "start": "start boot loader",
}


def named_actions(
    reading: Reading, block: Node | None, layers: Iterable[str], cells: Cells
) -> tuple[NamedAction, ...]:
    """Return the block `actions`; its names become words of `cells`."""
    names = Names(reading, "action", "give each action a name of its own")
    known_layers = list(layers)
    found: list[NamedAction] = []
    for statement in trees(block) if block else ():
        name = reading.word(tokens(statement)[0])
        action = _action(reading, trees(statement)[0], known_layers, cells)
        if names.define(name) and not _hides_usage(reading, name):
            cells.define(name.text, action)
            if action is not None:
                found.append(NamedAction(name, action, reading.whole(statement)))
    return tuple(found)


def _action(reading: Reading, phrase: Node, layers: list[str], cells: Cells) -> Action | None:
    if phrase.data == "nothing":
        return Nothing()
    if phrase.data == "boot_loader":
        return StartBootLoader()
    token = tokens(phrase)[0]
    if phrase.data == "press":
        return cells.press_of(token)
    if str(token) not in layers and not reading.was_dropped(token):
        reading.report(
            "unknown-layer",
            reading.span(token),
            f"there is no layer `{token}`",
            help=near_help(token, layers),
        )
    if token == BASE:
        reading.report(
            "layer-always-on",
            reading.span(token),
            "`base` is always on, so a key cannot turn it on",
            help="name the layer that the key is for",
        )
    return HoldLayer(str(token)) if phrase.data == "hold" else LatchLayer(str(token))


def _hides_usage(reading: Reading, name: Word) -> bool:
    """Whether an action is spelt exactly as a key; a cell could then mean either."""
    if not is_spelling(name.text):
        return False
    reading.report(
        "action-named-as-usage",
        name.span,
        f"`{name.text}` is already the name of a key, so that a cell could mean either",
        help="choose a name that says what the action is for",
    )
    return True
