"""A new text for a file that somebody may have changed since it was read: both changes are kept."""

from __future__ import annotations

from itertools import chain, count
from pathlib import Path

from matrixgen.merge import merge
from matrixgen.model import SourceText
from matrixgen.reach import read_argument
from matrixgen.record import Record
from matrixgen.source.limits import LIMITS


class ToWrite(Record):
    """Where to write which text.

    `now` is what the file has by now; None where there is none there. `is_beside` says that the
    text goes into a file of its own, since both changes are in the same places.
    """

    path: Path
    text: str
    now: SourceText | None
    is_merged: bool = False
    is_beside: bool = False


def to_write(path: Path, source: SourceText, text: str, word: str) -> ToWrite:
    """Return what to write so that no change is lost: `source` is what was read, `text` is new.

    `word` names what is written beside a file that was changed in the same places.
    """
    now = _read_now(path)
    if now is None or now.original == source.original:
        return ToWrite(path, text, now)
    both = merge(source.original, now.original, text)
    if both and not both.conflicts:
        return ToWrite(path, both.text, now, is_merged=True)
    return ToWrite(_beside(path, word), text, None, is_beside=True)


def _read_now(path: Path) -> SourceText | None:
    """Return what a file has now; None where it is gone. What is no text is as good as changed."""
    try:
        data = read_argument(path, LIMITS.file_bytes)
    except OSError:
        return None
    return SourceText(str(path), data.decode("utf-8", "replace"))


def _beside(path: Path, word: str) -> Path:
    """Return a path beside a file that nothing has yet."""
    numbers = chain([""], map(str, count(2)))
    names = (f"{path.stem}-{word}{number}{path.suffix}" for number in numbers)
    return next(one for name in names if not (one := path.with_name(name)).exists())
