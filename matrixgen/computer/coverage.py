"""What cannot be typed: signs, keys for editing and moving, function keys and media keys.

Signs are those of the layout that the file names for the computer, or of a US layout. A sign counts
if a press types it, or a dead key and another press, or a cell that is just this sign; of a longer
text none does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Set

from matrixgen.computer.setting import layout_of
from matrixgen.computer.typed_signs import held_together, typed_signs, wanted_signs
from matrixgen.layouts import HostLayout
from matrixgen.model.actions import (
    Action,
    Behaviour,
    InTurn,
    Media,
    OnceModifiers,
    Press,
    Typed,
    WithModifier,
)
from matrixgen.model.keyboard import Keyboard
from matrixgen.model.layer_states import LayerKeys
from matrixgen.record import Record
from matrixgen.usages import modifier_bit, usage_of
from matrixgen.usages.us_layout import SIGNS as SIGNS_OF_KEYS
from matrixgen.usages.us_layout import usages_of_sign

SIGNS = "signs"
"""The group of what a key types rather than what it is called."""

SHIFTS = sum(modifier_bit(usage_of(word) or 0) for word in ("LeftShift", "RightShift"))

US_SIGNS = frozenset(sign for both in SIGNS_OF_KEYS.values() for sign in both)

EDITING = ("Escape", "Tab", "Enter", "Backspace", "Delete", "Insert")
MOVING = ("Left", "Right", "Up", "Down", "Home", "End", "PageUp", "PageDown")
FUNCTIONS = tuple(f"F{number}" for number in range(1, 13))
MEDIA = tuple(Media(0x0C, usage) for usage in (0xE9, 0xEA, 0xE2, 0xCD, 0xB5, 0xB6))


class Sent(Record):
    """What keys can send: usages with the modifiers beside them, media keys, and single signs.

    `presses` may come with modifiers that other keys hold, `others` come only as they are.
    """

    presses: frozenset[Press]
    others: frozenset[Press]
    media: frozenset[Media]
    signs: frozenset[str]

    def has(self, usage: int | None, *, shifted: bool = False) -> bool:
        """Whether a usage can be sent, with one of the Shift keys or with no modifier at all."""
        alone, all_of_them = Press(usage or 0), self.presses | self.others
        if not shifted:
            return alone in all_of_them
        both = any(one.usage == usage and _is_shift(one.modifiers) for one in all_of_them)
        return both or (alone in self.presses and self.has_shift)

    @property
    def has_shift(self) -> bool:
        """Whether a key holds down Shift and nothing else."""
        return any(one.usage == 0 and _is_shift(one.modifiers) for one in self.presses)


def _is_shift(modifiers: int) -> bool:
    return modifiers != 0 and modifiers & ~SHIFTS == 0


def not_covered(keyboard: Keyboard) -> dict[str, tuple[str, ...]]:
    """Return, for each group of what people type, what no layer that can be on has a key for."""
    sent, layout = _sent(keyboard), layout_of(keyboard)
    return {
        SIGNS: tuple(sorted(_untyped(sent, layout) if layout else _untyped_on_us(sent))),
        "editing": _missing(EDITING, lambda word: _sends(sent, word)),
        "moving": _missing(MOVING, lambda word: _sends(sent, word)),
        "function keys": _missing(FUNCTIONS, lambda word: _sends(sent, word)),
        "media": tuple(one.phrase for one in MEDIA if one not in sent.media),
    }


def _missing(words: tuple[str, ...], is_sent: Callable[[str], bool]) -> tuple[str, ...]:
    return tuple(word for word in words if not is_sent(word))


def _sends(sent: Sent, word: str) -> bool:
    keypad = usage_of("KeypadEnter") if word == "Enter" else None
    return sent.has(usage_of(word)) or (keypad is not None and sent.has(keypad))


def _sent(keyboard: Keyboard) -> Sent:
    """Return what the keys of all layers that can be on can send."""
    keys = LayerKeys(keyboard)
    actions = {
        action
        for layers in {state.layers for state in keys.states()}
        for action in (keys.action_of(name, layers) for name in keys.pressable)
        if action
    }
    parts = {part for action in actions for part in _parts(action)}
    presses = frozenset(press for part in parts for press in _presses(part))
    held = held_together(presses)
    chosen = {done for part in parts for done in _chosen(part, held)}
    every = {*parts, *(action for action, _ in chosen)}
    return Sent(
        presses,
        frozenset(
            Press(one.usage, one.modifiers | m) for one, m in chosen if isinstance(one, Press)
        ),
        frozenset(part for part in every if isinstance(part, Media)),
        frozenset(sign for part in every for sign in _single_signs(part)),
    )


def _parts(action: Action) -> Iterator[Action]:
    """Yield an action and its parts, but not those that are chosen by modifiers."""
    yield action
    for part in () if isinstance(action, WithModifier) else action.parts:
        yield from _parts(part)


def _chosen(part: Action, held: Set[int]) -> Iterator[tuple[Action, int]]:
    """Yield what a key that goes by modifiers does, with the modifiers beside it."""
    if isinstance(part, WithModifier):
        for modifiers in held:
            one = part.chosen(modifiers)
            yield one.action, modifiers & ~one.hides()


def _single_signs(part: Behaviour) -> Iterator[str]:
    match part:
        case InTurn((Typed(text, _),)) if len(text) == 1:
            yield text
        case _:
            return


def _presses(part: Behaviour) -> Iterator[Press]:
    match part:
        case Press():
            yield part
        case OnceModifiers(modifiers):
            yield Press(0, modifiers)
        case _:
            return


def _untyped(sent: Sent, layout: HostLayout) -> frozenset[str]:
    return wanted_signs(layout) - typed_signs(sent.presses, layout, sent.others) - sent.signs


def _untyped_on_us(sent: Sent) -> Iterator[str]:
    return (sign for sign in US_SIGNS if not _types(sent, sign))


def _types(sent: Sent, sign: str) -> bool:
    """Whether a sign can be typed where the computer has a US layout."""
    return any(sent.has(usage, shifted=shifted) for usage, shifted in usages_of_sign(sign))
