"""Cells that belong to others of the layer: the other half of a pair, the rest of a group."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from matrixgen.computer.coverage import EDITING, FUNCTIONS, MOVING
from matrixgen.editor.offers.cells.around import CellsAround, Votes
from matrixgen.editor.offers.cells.in_runs import DIGITS, PUNCTUATION
from matrixgen.editor.offers.cells.sent import apart, sent_by
from matrixgen.usages.media import media_words
from matrixgen.usages.pointer import pointer_words

OPPOSITES = (
    *(("Up", "Down"), ("Left", "Right"), ("Next", "Previous"), ("In", "Out")),
    *(("Home", "End"), ("[", "]"), ("Rewind", "FastForward"), ("Back", "Forward")),
)
"""Words, and parts of words, that are two ways of one thing."""

NEIGHBOURS = (("Minus", "Equal"), ("Comma", "."), (";", "'"), ("Insert", "Delete"))
"""Keys that only stand side by side: the one makes the other a little likelier."""

MEDIA = (
    *("VolumeUp", "VolumeDown", "Mute", "PlayPause", "NextTrack", "PreviousTrack", "StopMedia"),
    *("FastForward", "Rewind", "BrightnessUp", "BrightnessDown", "Sleep"),
)
"""Media keys in the order in which keyboards have them (common practice, no source)."""

POINTER = tuple(pointer_words())
GROUPS = (
    *(tuple(map(sent_by, (*EDITING, *MOVING))), PUNCTUATION, MEDIA, POINTER),
    *(DIGITS, tuple(map(sent_by, FUNCTIONS))),
)
ARROWS = tuple(sent_by(word) for word in ("Up", "Left", "Down", "Right"))

BESIDE, SOMEWHERE, FITTING, REST, WEAK = 4.0, 2.5, 1.5, 1.2, 0.5

_BESIDE = frozenset(sent_by(one) for pair in NEIGHBOURS for one in pair)


@cache
def opposite(sent: str) -> str:
    """Return the other half of the pair that something is of; nothing where it is of none."""
    before, key = apart(sent)
    for pair in (*OPPOSITES, *NEIGHBOURS):
        for one, other in (pair, pair[::-1]):
            if key == sent_by(one):
                return before + sent_by(other)
            found = next(_exchanged(key, one, other), "")
            if found:
                return before + found
    return ""


def _exchanged(key: str, one: str, other: str) -> Iterator[str]:
    known = {"PageUp", "PageDown", *POINTER, *media_words()}
    for changed in (
        key.removesuffix(one) + other if key.endswith(one) else "",
        other + key.removeprefix(one) if key.startswith(one) else "",
    ):
        if changed in known and key in known:
            yield changed


def other_halves(around: CellsAround) -> Votes:
    """Yield what is missing to pairs."""
    there = set(around.cells.values())
    near = {around.beside(0, -1), around.beside(0, 1), around.beside(-1, 0), around.beside(1, 0)}
    near |= {around.listed(-1), around.listed(1)}
    for one in there:
        other = opposite(one)
        if other and other not in there:
            votes = BESIDE if one in near else SOMEWHERE
            yield other, votes * (WEAK if apart(one)[1] in _BESIDE else 1)


def rest_of_groups(around: CellsAround) -> Votes:
    """Yield what is missing to groups that some cells of the layer are of."""
    there = set(around.cells.values())
    for group in GROUPS:
        some = sum(one in there for one in group)
        if some:
            for place, one in enumerate(group):
                if one not in there:
                    is_new = one not in around.given
                    yield one, REST + min(some, 8) / 4 - place / 100 + is_new / 2


def where_arrows_fit(around: CellsAround) -> Votes:
    """Yield the arrow that belongs where the key is among the others."""
    at = {around.cells.get(key): place for key, place in around.at.items()}
    here = around.at.get(around.key)
    known = {one: at[one] for one in ARROWS if one in at}
    if not known or here is None:
        return
    for one, (is_row, way) in _WAYS.items():
        far = [(here[not is_row] - place[not is_row]) * way for place in known.values()]
        if one not in known and any(0 < each <= 2 for each in far) and min(far) >= 0:
            yield one, FITTING * len(known)


_WAYS = dict(zip(ARROWS, ((True, -1), (False, -1), (True, 1), (False, 1)), strict=True))
"""Of each arrow, whether it goes along columns of the plate, and which way."""
