"""A media key, as one word: `VolumeUp`. It is written where a press is, and read from there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Media
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.usages.media import media_usage_of, media_word

if TYPE_CHECKING:
    from lark import Token

    from matrixgen.source.phrases.scope import Scope


def read(scope: Scope, token: Token) -> Media | None:
    """Return the media key that a word names; None for other words, and for an action's name."""
    found = None if scope.knows(token) else media_usage_of(token)
    return Media(*found) if found else None


def report_joined(scope: Scope, token: Token, name: str, start: int) -> bool:
    """Report the part `name` of a cell, from letter number `start` on, if it is a media key."""
    found = None if scope.knows(name) else media_usage_of(name)
    if found is None:
        return False
    scope.reporter.report(
        "media-key-joined",
        scope.reporter.part(token, start, len(name)),
        f"`{name}` is a media key, and nothing can be joined to it",
        help=f"write `{media_word(*found)}` alone; a modifier that is held besides has its own key",
    )
    return True


PHRASE = Phrase(
    rule="CELL",
    behaviour=Media,
    form="MEDIA-KEY",
    first_word=None,
    read=read,
    lessons=(),
)
