"""A user's own JSON file, read as far as JSON goes."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from matrixgen.model.diagnostic import Diagnostic, Problem
from matrixgen.model.reason import reason_of
from matrixgen.model.text import Span
from matrixgen.record import Record


class OwnJson(Record, kw_only=True):
    """A file that is JSON: its path as it is shown, its text, what it holds, who asked for it."""

    shown: str
    text: str
    document: Any
    blamed: Span


def read_json(path: Path, blamed: Span, unreadable: Problem) -> OwnJson | Diagnostic:
    """Return a file's JSON, or what is wrong: at the place in it, or where it is asked for."""
    shown = str(path)
    try:
        text = path.read_bytes().decode("utf-8-sig")
        document = json.loads(text, parse_constant=_no_number)
    except OSError as error:
        return unreadable.at(blamed, f"`{shown}` cannot be read: {reason_of(error)}")
    except UnicodeDecodeError:
        return unreadable.at(blamed, f"`{shown}` is not UTF-8 text")
    except json.JSONDecodeError as error:
        place = Span.in_line(shown, error.lineno, error.colno, 1)
        return unreadable.at(place, f"not JSON: {error.msg.lower()}")
    except (RecursionError, ValueError):
        return unreadable.at(blamed, f"`{shown}` is nested too deeply or out of range")
    return OwnJson(shown=shown, text=text, document=document, blamed=blamed)


def checked(
    check: Callable[[], list[Diagnostic]], read: OwnJson, unreadable: Problem
) -> list[Diagnostic]:
    """Return what a check finds, or that the file is nested too deeply for it."""
    try:
        return check()
    except RecursionError:
        return [unreadable.at(read.blamed, f"`{read.shown}` is nested too deeply")]


def _no_number(name: str) -> None:
    """Refuse NaN and Infinity, which Python's decoder would take and JSON does not have."""
    raise ValueError(name)
