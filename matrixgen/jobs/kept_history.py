"""What was found out of a file's contents and of what lies between two, kept for the next time.

All is kept by hashes of the contents, which we make: what a repository calls its contents is for
that repository to say. The names are also of this very program, so that another version looks for
itself. Whatever is wrong with what was kept, it can be found out again.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from matrixgen.cache import keep, kept, kept_json, program_version
from matrixgen.model.work import WORKS
from matrixgen.record import Record

MOST_KEPT = 20_000
"""Answers that are kept of one file; of more, those of this time."""

CONTENTS = ("new", "unreadable")
"""Kinds of answers about one content."""

PAIRS = (*WORKS, "none")
"""Kinds of answers about two."""


class KeptAnswer(Record):
    """What was found: a kind, of work or that something does not read, and that in words."""

    kind: str
    words: str


def hash_of(parts: Iterable[bytes | None]) -> str:
    """Return a name for several contents, of which some may be missing."""
    each = (b"-" if part is None else hashlib.sha256(part).digest() for part in parts)
    return hashlib.sha256(b"".join(each)).hexdigest()


class KeptHistory:
    """Answers by hashes, read from the user's cache folder and written there."""

    def __init__(self, file: Path) -> None:
        """`file` only decides where the answers are kept."""
        self._path = kept_json("history", f"{program_version()}\n{file.absolute()}")
        self._before = _read(self._path)
        self.now: dict[str, KeptAnswer] = {}
        """What was asked for this time, or put."""

    def get(self, name: str, kinds: Sequence[str]) -> KeptAnswer | None:
        """Return an answer of one of these kinds that was kept or put."""
        found = self.now.get(name) or self._before.get(name)
        if found is None or found.kind not in kinds:
            return None
        self.now[name] = found
        return found

    def put(self, name: str, answer: KeptAnswer) -> KeptAnswer:
        """Keep an answer."""
        self.now[name] = answer
        return answer

    def save(self) -> None:
        """Write what is new, if anything is; a folder that cannot be written is no failure."""
        if all(self._before.get(name) == answer for name, answer in self.now.items()):
            return
        both = {**self._before, **self.now}
        answers = both if len(both) <= MOST_KEPT else self.now
        plain = {name: [answer.kind, answer.words] for name, answer in answers.items()}
        with suppress(OSError):
            keep(json.dumps(plain).encode(), self._path)


def _read(path: Path) -> dict[str, KeptAnswer]:
    try:
        document = json.loads(kept(path) or b"{}")
    except (ValueError, RecursionError):
        return {}
    if not isinstance(document, dict):
        return {}
    return {name: KeptAnswer(*said) for name, said in document.items() if _is_answer(said)}


def _is_answer(said: Any) -> bool:
    return (
        isinstance(said, list)
        and len(said) == 2
        and said[0] in (*CONTENTS, *PAIRS)
        and isinstance(said[1], str)
    )
