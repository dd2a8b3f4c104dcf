"""Merging three versions of a file as bytes, and what is wrong with a merge alone."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from matrixgen.jobs.examine import examine_text
from matrixgen.merge import Merged, merge
from matrixgen.model import Diagnostic
from matrixgen.record import Record
from matrixgen.source import read_design


class NotMerged(Record):
    """Why there is no merge; `fault` is a mistake of ours that is to be reported, if it is one."""

    why: str
    fault: Exception | None = None


def merge_versions(versions: Sequence[bytes]) -> Merged | NotMerged:
    """Return the merge of a base and the two versions that come from it."""
    fault = None
    try:
        base, ours, theirs = (version.decode() for version in versions)
        if merged := merge(base, ours, theirs):
            return merged
    except UnicodeDecodeError:
        pass
    except Exception as error:  # git would take OURS, as it is, for the merge: theirs would be lost
        fault = error
    return NotMerged(_unread(versions), fault)


def _unread(versions: Sequence[bytes]) -> str:
    """Return which of the versions does not read, and the first reason."""
    for name, version in zip(("the base", "our version", "their version"), versions, strict=True):
        _, findings = read_design(name, version.decode("utf-8", "surrogateescape"))
        wrong = next((found for found in findings if found.is_error), None)
        if wrong:
            return f"line {wrong.span.line} of {name} cannot be read: {wrong.message}"
    return "its parts could not be told apart"


def new_errors(path: str, versions: Sequence[str], text: str) -> list[Diagnostic]:
    """Return what is wrong with a merge, called `path`, that is not wrong with either side."""
    if text in versions:
        return []
    folder = Path(path).parent
    known = {one.said for version in versions[1:] for one in _errors(path, version, folder)}
    return [one for one in _errors(path, text, folder) if one.said not in known]


def _errors(path: str, text: str, folder: Path) -> list[Diagnostic]:
    return [found for found in examine_text(path, text, folder).findings if found.is_error]
