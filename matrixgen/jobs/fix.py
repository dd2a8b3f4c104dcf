"""Applying cures: those that leave no doubt, and those that were asked for by name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Iterator
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.jobs.kept import keeps_all, keeps_comments
from matrixgen.model import Diagnostic, Fix, SourceText
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


def fixed(
    examined: Examined, source: SourceText, folder: Path, asked: Container[str] = ()
) -> Fixed:
    """Return a file with cures applied, one after the other: the certain ones, and those asked for.

    `asked` has the slugs of findings whose cure is wanted although it changes what the file says.

    A cure is kept only if its finding is gone, and a certain one only if nothing of the file is
    lost (`kept.py`). Where the whole file could be read before, nothing new may be found
    afterwards, and where it could have been built, a certain cure must also leave it to mean the
    same; else a mistake may come to light that the other one hid, on other lines than the cure's.
    """
    cured: list[Diagnostic] = []
    refused: set[Diagnostic] = set()
    while len(cured) + len(refused) < MOST_ROUNDS:
        found = next(_curable(examined.findings, refused, asked), None)
        if found is None:
            break
        after = apply(found, examined, source, folder)
        if after is None:
            refused.add(found)
            continue
        cured.append(found)
        examined, source = after
    return Fixed(examined, source.original, tuple(cured))


def _curable(
    findings: Iterable[Diagnostic], refused: set[Diagnostic], asked: Container[str]
) -> Iterator[Diagnostic]:
    for found in findings:
        if found.fix and found not in refused and (found.fix.is_certain or found.slug in asked):
            yield found


def apply(
    found: Diagnostic, examined: Examined, source: SourceText, folder: Path
) -> tuple[Examined, SourceText] | None:
    """Return the file after one cure, checked again; None where the cure does not hold."""
    assert found.fix
    text = edited(source, found.fix.edits)
    if text is None:
        return None
    now = SourceText(source.path, text)
    if not (keeps_all if found.fix.is_certain else keeps_comments)(source, now):
        return None
    after = examine_text(source.path, text, folder)
    return (after, now) if _holds(found, found.fix, examined, after) else None


def _holds(found: Diagnostic, fix: Fix, examined: Examined, after: Examined) -> bool:
    """Whether a cure removed its finding and did nothing else."""
    what = _what if fix.is_certain else _kind
    before, now = (Counter(map(what, one.findings)) for one in (examined, after))
    if now[what(found)] >= before[what(found)]:
        return False
    if examined.design is None:
        return not (fix.is_certain and _leaves_doubt(fix, before, after))
    return not now - before and (not fix.is_certain or _says_the_same(examined, after))


def _leaves_doubt(fix: Fix, before: Counter[tuple[str, str]], after: Examined) -> bool:
    """Whether the reader then finds new errors in a cure's own lines that have no certain cure."""
    lines = {edit.span.line for edit in fix.edits}
    return after.design is None and any(
        found.is_error and found.span.line in lines and not (found.fix and found.fix.is_certain)
        for found in after.findings
        if _what(found) not in before
    )


def _says_the_same(before: Examined, after: Examined) -> bool:
    """Whether a file still means what it meant; if it could not be built, it meant nothing yet."""
    if before.design is None or not before.is_sound:
        return True
    return after.design is not None and (
        mounted_meaning(before.design) == mounted_meaning(after.design)
    )


def _what(found: Diagnostic) -> tuple[str, str]:
    """Return what is said, wherever it is said: a cure may move what follows."""
    return found.slug, found.message


def _kind(found: Diagnostic) -> tuple[str, str]:
    """Return the kind alone: what else is said of a keyboard may change with it."""
    return found.slug, ""
