"""A key, modifiers, or both, as one word: `Ctrl+C`. Other keys' words alone are read here too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import InTurn, Media, Pointer, Press
from matrixgen.source.letters import joined_parts
from matrixgen.source.phrases import media, pointer, typed_sign
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.usages import modifier_bit

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Token


def read(scope: Scope, token: Token) -> Press | Media | Pointer | InTurn | None:
    """Return what a word like `Ctrl+C` or `VolumeUp` names, or types a sign; report others."""
    if scope.letters.is_sign(token) and not scope.knows(token):
        return typed_sign.read(scope, token)
    return media.read(scope, token) or pointer.read(scope, token) or _press(scope, token)


def _press(scope: Scope, token: Token) -> Press | None:
    """Return the usage and modifiers that a word names; report others."""
    *names, last = joined_parts(token)
    modifiers, start = 0, 0
    for name in names:
        bit = _modifier(scope, token, name, start)
        if not bit:
            return None
        _check_new(scope, token, name, start, bool(modifiers & bit))
        modifiers |= bit
        start += len(name) + 1
    usage = usage_in(scope, last)
    if usage is None:
        _report_unknown(scope, token, last, start)
        return None
    bit = modifier_bit(usage)
    _check_new(scope, token, last, start, bool(modifiers & bit))
    return Press(0, modifiers | bit) if bit else Press(usage, modifiers)


def _check_new(scope: Scope, token: Token, name: str, start: int, is_doubled: bool) -> None:
    """Report a modifier that the same word has already."""
    if is_doubled:
        scope.reporter.report(
            "duplicate-modifier",
            scope.reporter.part(token, start, len(name)),
            f"`{name}` is in `{token}` a second time",
            help="keep one of the two, or write the other modifier that is meant",
        )


def usage_in(scope: Scope, name: str) -> int | None:
    """Return the usage of a word; None for an action's name, even if it looks like a usage."""
    return None if scope.knows(name) else scope.letters.usage_of(name)


def _modifier(scope: Scope, token: Token, name: str, start: int) -> int:
    """Return the bit of a modifier; report another word before a `+` and return 0."""
    usage, reporter = usage_in(scope, name), scope.reporter
    if usage is None:
        _report_unknown(scope, token, name, start)
        return 0
    bit = modifier_bit(usage)
    if not bit:
        reporter.report(
            "not-a-modifier",
            reporter.part(token, start, len(name)),
            f"`{name}` is not a modifier, so nothing can be added to it",
            help="put Ctrl, Shift, Alt or GUI before `+`, with Left or Right if you like",
        )
    return bit


def _report_unknown(scope: Scope, token: Token, name: str, start: int) -> None:
    from matrixgen.source.phrases.unknown_word import report_unknown  # few files need it

    report_unknown(scope, token, name, start)


PHRASE = Phrase(
    rule="CELL",
    behaviour=Press,
    form="MODIFIER+KEY",
    read=read,
)
