"""Kinds of mistake whose pages are Markdown files, a folder a room, a file a slug.

A file's first line says how bad the mistake is, `severity: error` or `severity: warning`; after an
empty line comes the page. A file is read when its mistake is made, and not before.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from matrixgen.model.diagnostic import Problem, Severity

ENDING = ".md"
LONGEST = 60
"""Letters of a slug; a longer name may be none of a file."""


class Pages:
    """The kinds of mistake of one room, by slug."""

    def __init__(self, module: str) -> None:
        """Take the file of the Python module that lies beside the pages."""
        self._module = module

    def get(self, slug: str) -> Problem | None:
        """Return the kind of mistake of that slug, or None where the room has none.

        Whatever a file says may be asked for: what is no word of letters is no file's name.
        """
        if len(slug) > LONGEST or not slug.replace("-", "").isalnum():
            return None
        return _read(self._file(slug)) if self._file(slug).is_file() else None

    def __getitem__(self, slug: str) -> Problem:
        return _read(self._file(slug))

    def all(self) -> tuple[Problem, ...]:
        """Return every kind of mistake of the room, by slug."""
        folder = Path(self._module).parent
        return tuple(self[path.stem] for path in sorted(folder.glob(f"*{ENDING}")))

    def _file(self, slug: str) -> Path:
        return Path(self._module).with_name(slug + ENDING)


@cache
def _read(path: Path) -> Problem:
    head, _, page = path.read_text(encoding="utf-8").partition("\n\n")
    return Problem(path.stem, Severity(head.removeprefix("severity: ")), page)
