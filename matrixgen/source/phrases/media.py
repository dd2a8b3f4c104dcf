"""A media key, as one word: `VolumeUp`. It is written where a press is, and read from there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Media
from matrixgen.model.diagnostic import Note
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.usages.media import media_usage_of, media_word

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Token

MISTAKABLE = {
    "repeat": ("a player that starts again", "keys that repeat the key before"),
    "record": ("a recorder", "keys that record what is typed"),
}
"""What each of these media keys is for, and what the plain word may be meant to ask for instead."""


def read(scope: Scope, token: Token) -> Media | None:
    """Return the media key that a word names; None for other words, and for an action's name."""
    found = None if scope.knows(token) else media_usage_of(token)
    if found and token in MISTAKABLE:
        _warn(scope, token, media_word(*found))
    return Media(*found) if found else None


def _warn(scope: Scope, token: Token, word: str) -> None:
    """Warn of a media key that may be meant as something that is not there yet."""
    scope.reporter.report(
        "mistakable-media-key",
        scope.reporter.span(token),
        f"`{token}` is the media key `{word}`, for {MISTAKABLE[str(token)][0]}",
        help=f"write `{word}` if that is meant",
        notes=[Note(f"matrixgen has no {MISTAKABLE[str(token)][1]} yet")],
    )


PHRASE = Phrase(
    rule="CELL",
    behaviour=Media,
    form="MEDIA-KEY",
    read=read,
)
