"""The answers of a dialogue at the bench, kept in the user's cache folder after each of them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from matrixgen.bench.dialogues.answers import MakerAnswers
from matrixgen.cache import keep, kept, kept_json
from matrixgen.model.reason import reason_of

FORM = 1


class KeptSession:
    """Where the answers for a command, a file and a chip are kept; `reason` why they can't be."""

    def __init__(self, command: str, file: Path, chip: str) -> None:
        self.command = command
        self._path = kept_json("sessions", f"{command}\n{file.resolve()}\n{chip}")
        self.reason: str | None = None
        self.count = 0

    def read(self) -> tuple[MakerAnswers, str] | None:
        """Return what was kept and when, in words; None where there is nothing that is whole."""
        try:
            document = json.loads(kept(self._path) or b"null")
            answers = _answers(document)
            when = datetime.fromtimestamp(self._path.stat().st_mtime).astimezone()
        except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
            return None
        self.count = len(answers.closes)
        return (answers, f"{when:%Y-%m-%d %H:%M}") if answers.closes else None

    def write(self, answers: MakerAnswers) -> None:
        """Keep answers; where that can't be, `reason` says why."""
        self.count = len(answers.closes)
        try:
            keep(json.dumps(_document(answers)).encode(), self._path)
        except OSError as error:
            self.reason = reason_of(error)

    def says(self) -> Iterator[str]:
        """Yield what to tell whoever leaves in the middle."""
        if self.reason:
            yield f"what was pressed could not be kept: {self.reason}"
        elif self.count:
            keys = "key is" if self.count == 1 else "keys are"
            yield f"{self.count} {keys} kept: the next `matrixgen {self.command}` can go on"


def _document(answers: MakerAnswers) -> dict[str, Any]:
    closes = {key: sorted(pairs) for key, pairs in answers.closes.items()}
    return {"form": FORM, "closes": closes, "sure": answers.sure, "skipped": answers.skipped}


def _answers(document: Any) -> MakerAnswers:
    """Return the answers of a document; raises what such mistakes raise where it is no such one."""
    if document["form"] != FORM:
        raise ValueError(document["form"])
    return MakerAnswers(
        closes={
            key: frozenset((str(low), str(read)) for low, read in pairs)
            for key, pairs in document["closes"].items()
        },
        sure=tuple(map(str, document["sure"])),
        skipped=tuple(map(str, document["skipped"])),
    )
