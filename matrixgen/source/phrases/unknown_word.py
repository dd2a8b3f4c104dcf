"""What to say of a cell's word that is no key and no action: loaded when there is one."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix, Note
from matrixgen.model.text import Edit
from matrixgen.record import Record
from matrixgen.source.letters import is_letter, unquoted
from matrixgen.source.not_yet import not_there_yet, said_otherwise
from matrixgen.source.slips import joined_name
from matrixgen.usages import modifier_bit, usage_of, words
from matrixgen.usages.media import media_usage_of, media_word
from matrixgen.usages.pointer import pointer_usage_of, pointer_word
from matrixgen.usages.us_layout import us_press_of

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Token

GUI_WORDS = frozenset(("win", "windows", "super", "meta", "cmd"))
"""What keycaps and programs call the key that the usage tables call GUI."""

KEYCAPS = (
    "keys are called as in the USB usage tables and on English keycaps, such as `Delete` or `Ctrl`"
)


class Lone(Record):
    """A kind of keys that nothing can be combined with, and what to do instead."""

    usage_of: Callable[[str], tuple[int, ...] | None]
    word_of: Callable[..., str]
    slug: str
    called: str
    instead: str


LONE_KEYS = (
    Lone(
        media_usage_of,
        media_word,
        "media-key-joined",
        "a media key",
        "; a modifier that is also held has its own key",
    ),
    Lone(
        pointer_usage_of,
        pointer_word,
        "pointer-key-joined",
        "a key of the pointer",
        ", and hold the modifier with a key of its own, or put `once Shift` and the like on one",
    ),
)


def report_unknown(scope: Scope, token: Token, name: str, start: int) -> None:
    """Report the part `name` of a cell, from letter number `start` on, and what may be meant."""
    reporter = scope.reporter
    lone = None if scope.knows(name) else next((k for k in LONE_KEYS if k.usage_of(name)), None)
    if lone:
        reporter.report(
            lone.slug,
            reporter.part(token, start, len(name)),
            f"`{name}` is {lone.called}, and nothing can be combined with it",
            help=f"write only `{lone.word_of(*lone.usage_of(name) or ())}`{lone.instead}",
        )
        return
    if reporter.was_dropped(name) or reporter.was_dropped(token):
        return
    if is_letter(unquoted(name)) and not scope.knows(name):
        if not scope.letters.is_lost:
            _report_sign(scope, token, name, start)
        return
    known = [*scope.names, *words()]
    lacking = None if scope.knows(name) else not_there_yet(name, known)
    help, fix = (None, None) if lacking else _cure(scope, token, name, start)
    reporter.report(
        "unknown-usage",
        reporter.part(token, start, len(name)),
        f"`{name}` is neither a key nor the name of an action",
        help=help,
        notes=[Note(lacking)] if lacking else (),
        fix=fix,
    )


def _report_sign(scope: Scope, token: Token, sign: str, start: int) -> None:
    """Report a letter or sign that is no key of a US layout, where the file names no other."""
    press = us_press_of(sign)
    typed = (f"`{press}` types it where the computer has a US layout",) if press else ()
    layout = scope.letters.layout
    scope.reporter.report(
        "unknown-usage",
        scope.reporter.part(token, start, len(sign)),
        f"`{sign}` is not a key: keys send positions, and the computer turns them into characters"
        if layout is None
        else f"no key of the layout `{layout.name}` has `{sign}` on it",
        help=() if layout else (*typed, "say which layout the computer has, as in `computer de`"),
    )


def _cure(scope: Scope, token: Token, name: str, start: int) -> tuple[str, Fix | None]:
    if scope.knows(name):
        return f"`{name}` is an action, not a key: write what it does in full", None
    if certain := _certain(name):
        whole = f"{token[:start]}{certain}{token[start + len(name) :]}"
        edit = Edit(scope.reporter.span(token), whole)
        return f"write `{whole}`", Fix(f"write `{whole}` for `{token}`", (edit,))
    if joined := _in_two(scope, token):
        return f"write `{joined}`, in one word", None
    return _guess(scope, name), None


def _in_two(scope: Scope, token: Token) -> str | None:
    """Return the name of a key that this word is a part of, the rest apart from it by blanks."""
    line, column = scope.reporter.source.line(token.line or 1), (token.column or 1) - 1
    before, after = line[:column].split(), line[column:].partition("#")[0].split()
    around = (after[:3], after[:2], [*before[-1:], *after[:2]], [*before[-1:], *after[:1]])
    return next((name for words in around if (name := joined_name(words))), None)


def _certain(name: str) -> str | None:
    """Return the word that can only be meant."""
    if name.casefold() in GUI_WORDS:
        return "GUI"
    *before, last = name.split("-")
    joined = "+".join("GUI" if word.casefold() in GUI_WORDS else word for word in before)
    all_modifiers = all(modifier_bit(usage_of(word) or 0) for word in joined.split("+"))
    if before and all_modifiers and usage_of(last) is not None:
        return f"{joined}+{last}"
    return None


IN_TURN = {
    "text": 'a key that types a text is written `type "Hello"`',
    "type": 'a text is written in quotes, as in `type "Hello"`',
    "wait": "a wait comes between two presses, as in `Ctrl+K, then wait 50 ms, then Enter`",
    "then": "it comes after a press and a comma, as in `Ctrl+K, then Enter`",
}
"""What to say of a word that is only part of what is typed in turn."""


def _guess(scope: Scope, name: str) -> str:
    if name in IN_TURN:
        return IN_TURN[name]
    if name in scope.layers:
        return f"there is a layer of that name: `hold layer {name}`, in a list or in `actions`"
    if "mouse" in name.casefold():
        return (
            "the keys of a pointer are `PointerLeft`, `PointerRight`, `PointerUp`, `PointerDown`, "
            "`Button1` to `Button5`, `WheelUp`, `WheelDown`, `WheelLeft` and `WheelRight`"
        )
    if name.casefold() == "fn":
        return "no computer knows an Fn key: `hold layer NAME`, in a list or in `actions`"
    known = [*scope.names, *words()]
    return said_otherwise(name, known) or scope.reporter.similar_help(name, known) or KEYCAPS
