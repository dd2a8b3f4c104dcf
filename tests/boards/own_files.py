"""A user's own profile in a folder of its own, changed and read."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from matrixgen.boards import Profile, load_profile
from matrixgen.model import Diagnostic, Span, Word
from matrixgen.resources import resource

WHERE = Span.in_line("pad.keys", 2, 14, 6)

Change = Callable[[dict[str, Any]], object]


def good() -> dict[str, Any]:
    return json.loads((resource("boards") / "at90usb162.json").read_text(encoding="utf-8"))


def load(folder: Path, document: object) -> tuple[Profile | None, list[Diagnostic]]:
    text = document if isinstance(document, str) else json.dumps(document, indent=2)
    (folder / "mine.json").write_text(text, encoding="utf-8")
    return load_profile(Word("mine.json", WHERE), folder)


def sound(folder: Path, document: object) -> Profile:
    """The profile that a document without a mistake is read as."""
    profile, findings = load(folder, document)
    assert profile is not None and findings == []
    return profile


def only(findings: list[Diagnostic]) -> Diagnostic:
    assert len(findings) == 1, findings
    return findings[0]


def marked(folder: Path, found: Diagnostic) -> str:
    """The letters of the profile that a finding marks."""
    line = (folder / "mine.json").read_text(encoding="utf-8").splitlines()[found.span.line - 1]
    return line[found.span.column - 1 : found.span.end_column - 1]


def is_told(
    folder: Path,
    change: Change,
    message: str,
    letters: str | None,
    document: dict[str, Any] | None = None,
) -> None:
    """Assert that a mistake is told once, and where; None for wherever it is."""
    document = document or good()
    change(document)
    profile, findings = load(folder, document)
    assert profile is None
    told = [found for found in findings if found.message.startswith(message)]
    assert [found.slug for found in told] == ["bad-profile"], findings
    assert letters in (None, marked(folder, told[0]))


def without(field: str) -> Change:
    return lambda document: document.pop(field)


def setting(value: object, *path: str | int) -> Change:
    def change(document: Any) -> None:
        for part in path[:-1]:
            document = document[part]
        document[path[-1]] = value

    return change
