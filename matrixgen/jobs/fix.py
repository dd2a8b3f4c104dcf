"""Applying the cures that leave no doubt, and proving that they said nothing else."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.model import Diagnostic, SourceText
from matrixgen.model.meaning import mounted_meaning
from matrixgen.record import Record
from matrixgen.source.edits import edited

MOST_ROUNDS = 100
"""Rounds of cures: one cure can make another mistake visible, and its own cure possible."""


class Fixed(Record):
    """A file after its cures: what was found then, its text, and the findings that were cured."""

    examined: Examined
    text: str
    cured: tuple[Diagnostic, ...]


def fixed(examined: Examined, source: SourceText, folder: Path) -> Fixed:
    """Return a file with every certain cure applied, one after the other.

    A cure is kept only if its finding is gone. Where the whole file could be read before, nothing
    new may be found afterwards, and where it could have been built, it must also mean the same;
    else a mistake may come to light that the other one hid.
    """
    cured: list[Diagnostic] = []
    refused: set[Diagnostic] = set()
    while len(cured) + len(refused) < MOST_ROUNDS:
        found = next(_curable(examined.findings, refused), None)
        if found is None:
            break
        after = apply(found, examined, source, folder)
        if after is None:
            refused.add(found)
            continue
        cured.append(found)
        examined, source = after
    return Fixed(examined, source.original, tuple(cured))


def _curable(findings: Iterable[Diagnostic], refused: set[Diagnostic]) -> Iterator[Diagnostic]:
    return (
        found for found in findings if found.fix and found.fix.is_certain and found not in refused
    )


def apply(
    found: Diagnostic, examined: Examined, source: SourceText, folder: Path
) -> tuple[Examined, SourceText] | None:
    """Return the file after one cure, checked again; None where the cure does not hold."""
    assert found.fix
    text = edited(source, found.fix.edits)
    if text is None:
        return None
    after = examine_text(source.path, text, folder)
    before, now = _counts(examined.findings), _counts(after.findings)
    if now[_what(found)] >= before[_what(found)]:
        return None
    if examined.design and (now - before or not _says_the_same(examined, after)):
        return None
    return after, SourceText(source.path, text)


def _says_the_same(before: Examined, after: Examined) -> bool:
    """Whether a file still means what it meant; if it could not be built, it meant nothing yet."""
    if before.design is None or not before.is_sound:
        return True
    return after.design is not None and (
        mounted_meaning(before.design) == mounted_meaning(after.design)
    )


def _what(found: Diagnostic) -> tuple[str, str]:
    return found.slug, found.message


def _counts(findings: Iterable[Diagnostic]) -> Counter[tuple[str, str]]:
    """Return how often each thing is said, wherever it is said: a cure may move what follows."""
    return Counter(map(_what, findings))
