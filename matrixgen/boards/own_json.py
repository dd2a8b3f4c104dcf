"""A user's own JSON file, read as far as JSON goes."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from matrixgen.model.diagnostic import Diagnostic, Problem
from matrixgen.model.reason import helps_of, reason_of
from matrixgen.model.text import Span
from matrixgen.reach import read_argument, read_named
from matrixgen.reading import at_most
from matrixgen.record import Record

MOST_BYTES = 1_000_000
"""The largest file of a controller or a diode. The longest built-in one has 20,000."""


Committed = Callable[[str], bytes | None]
"""What a revision of a repository has at a path as a .keys file writes it; None where nothing."""


class OwnJson(Record, kw_only=True):
    """A file that is JSON: its path as it is shown, its text, what it holds."""

    shown: str
    text: str
    document: Any


class JsonKind(Record, kw_only=True):
    """What a file is read for: what messages call it, and the kind of mistake if it does not read.

    `fields` returns names that every such file has: by them a file is known as one that was meant
    for it, or by all of `or_all`. Nothing of any other is quoted, since it may hold what is
    nobody's business. `mistakes` are then looked for.
    """

    called: str
    unreadable: Problem
    fields: Callable[[], tuple[str, ...]]
    mistakes: Callable[[OwnJson], list[Diagnostic]]
    or_all: tuple[str, ...] = ()

    def is_meant(self, text: str) -> bool:
        """Whether a text has at least half of the names, or all of the others."""
        if self.or_all and all(f'"{name}"' in text for name in self.or_all):
            return True
        names = self.fields()
        return 2 * sum(f'"{name}"' in text for name in names) >= len(names)


def read_json(
    path: Path,
    folder: Path | None,
    blamed: Span,
    kind: JsonKind,
    committed: bytes | None = None,
) -> OwnJson | list[Diagnostic]:
    """Return a file's JSON, or what is wrong: at the place in it, or where it is asked for.

    It is named by a .keys file of this folder; where that is None, by a command line. Where a
    revision has the file, `committed` is what is in it there.
    """
    read = _read(path, folder, blamed, kind, committed)
    if isinstance(read, Diagnostic):
        return [read]
    try:
        return kind.mistakes(read) or read
    except RecursionError:
        return [kind.unreadable.at(blamed, f"`{read.shown}` is nested too deeply")]


def _read(
    path: Path,
    folder: Path | None,
    blamed: Span,
    kind: JsonKind,
    committed: bytes | None,
) -> OwnJson | Diagnostic:
    """Return a file's JSON, or why it is none: at the place in it, or where it is asked for."""
    shown, unreadable = str(path), kind.unreadable
    text = ""
    try:
        data = _bytes_of(path, folder) if committed is None else at_most(committed, MOST_BYTES)
        text = data.decode("utf-8-sig")
        document = json.loads(text, parse_constant=_no_number)
    except OSError as error:
        return unreadable.at(
            blamed, f"`{shown}` cannot be read: {reason_of(error)}", help=helps_of(error)
        )
    except UnicodeDecodeError:
        return unreadable.at(blamed, f"`{shown}` is not UTF-8 text")
    except json.JSONDecodeError as error:
        if not kind.is_meant(text):
            what = f"{error.msg.lower()} in line {error.lineno}, column {error.colno}"
            return unreadable.at(blamed, f"`{shown}` is not JSON: {what}")
        place = Span.in_line(shown, error.lineno, error.colno, 1)
        return unreadable.at(place, f"not JSON: {error.msg.lower()}")
    except (RecursionError, ValueError):
        return unreadable.at(blamed, f"`{shown}` is nested too deeply or out of range")
    if not kind.is_meant(text):
        return _not_meant(shown, blamed, kind)
    return OwnJson(shown=shown, text=text, document=document)


def _bytes_of(path: Path, folder: Path | None) -> bytes:
    if folder is None:
        return read_argument(path, MOST_BYTES)
    return read_named(path, folder, MOST_BYTES)


def _not_meant(shown: str, blamed: Span, kind: JsonKind) -> Diagnostic:
    """Say that a file is something else, and nothing of what is in it."""
    names = [f"`{name}`" for name in kind.fields()]
    return kind.unreadable.at(
        blamed,
        f"`{shown}` is not {kind.called}: it lacks most of the fields that each has",
        help=f"they are {', '.join(names[:-1])} and {names[-1]}",
    )


def _no_number(name: str) -> None:
    """Refuse NaN and Infinity, which Python's decoder would take and JSON does not have."""
    raise ValueError(name)
