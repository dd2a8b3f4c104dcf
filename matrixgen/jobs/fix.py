"""Applying cures: those that leave no doubt, and those that were asked for by name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Container, Iterable, Iterator, Mapping
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.jobs.kept import keeps_all, keeps_comments
from matrixgen.model import Diagnostic, Fix, SourceText
from matrixgen.model.meaning import mounted_meaning
from matrixgen.record import Record
from matrixgen.source.edits import edited

MOST_ROUNDS = 100
"""Rounds of cures: one cure can make another mistake visible, and its own cure possible."""


class NotFixed(Record):
    """A cure that was asked for and not applied, and why; there may be no finding to cure."""

    slug: str
    found: Diagnostic | None
    why: str


class Fixed(Record):
    """A file after its cures: what was found then, its text, and the findings that were cured.

    `refused` says of each cure that was asked for by name, and that was not applied, why not.
    """

    examined: Examined
    text: str
    cured: tuple[Diagnostic, ...]
    refused: tuple[NotFixed, ...] = ()


def fixed(
    examined: Examined, source: SourceText, folder: Path, asked: Collection[str] = ()
) -> Fixed:
    """Return a file with cures applied, one after the other: the certain ones, and those asked for.

    `asked` has the slugs of findings whose cure is wanted although it changes what the file says.

    A cure is kept only if its finding is gone, and a certain one only if nothing of the file is
    lost (`kept.py`). Where the whole file could be read before, nothing new may be found
    afterwards, and where it could have been built, a certain cure must also leave it to mean the
    same; else a mistake may come to light that the other one hid, on other lines than the cure's.
    A cure of an error that was asked for may leave warnings that were not there before.
    """
    cured: list[Diagnostic] = []
    refused: dict[Diagnostic, str] = {}
    while len(cured) + len(refused) < MOST_ROUNDS:
        found = next(_curable(examined.findings, refused, asked), None)
        if found is None:
            break
        after = tried(found, examined, source, folder)
        if isinstance(after, str):
            refused[found] = after
            continue
        cured.append(found)
        examined, source = after
    refusals = _refusals(examined, cured, refused, asked)
    return Fixed(examined, source.original, tuple(cured), tuple(refusals))


def _refusals(
    examined: Examined,
    cured: Iterable[Diagnostic],
    refused: Mapping[Diagnostic, str],
    asked: Iterable[str],
) -> Iterator[NotFixed]:
    """Yield what was asked for and is not done: of each finding that is left, or of the name."""
    done = {found.slug for found in cured}
    for slug in dict.fromkeys(asked):
        left = [found for found in examined.findings if found.slug == slug]
        for found in left:
            yield NotFixed(slug, found, refused.get(found) or _why_not_tried(found))
        if not left and slug not in done:
            yield NotFixed(slug, None, _why_none(slug, examined))


def _why_not_tried(found: Diagnostic) -> str:
    if found.fix is None:
        return "there is no edit that does what its help says; do it by hand"
    return f"after {MOST_ROUNDS} fixes no more are tried; run it again"


def _why_none(slug: str, examined: Examined) -> str:
    """Return why there is nothing of that name to be cured."""
    if any(found.slug == slug for found in examined.allowed):
        return "the file allows it"
    if examined.design is None:
        return "the file cannot be read as a whole, so it was not looked for"
    return "nothing of that name is found in the file"


def _curable(
    findings: Iterable[Diagnostic], refused: Container[Diagnostic], asked: Container[str]
) -> Iterator[Diagnostic]:
    for found in findings:
        if found.fix and found not in refused and (found.fix.is_certain or found.slug in asked):
            yield found


def tried(
    found: Diagnostic, examined: Examined, source: SourceText, folder: Path
) -> tuple[Examined, SourceText] | str:
    """Return the file after one cure, checked again, or why the cure does not hold."""
    assert found.fix
    text = edited(source, found.fix.edits)
    if text is None:
        return "its edits cannot be made in this text"
    now = SourceText(source.path, text)
    if not keeps_comments(source, now):
        return "a comment would be lost; move the comment, or do it by hand"
    if found.fix.is_certain and not keeps_all(source, now):
        return "something that the file says would be lost"
    after = examine_text(source.path, text, folder)
    return _objection(found, found.fix, examined, after) or (after, now)


def _objection(found: Diagnostic, fix: Fix, examined: Examined, after: Examined) -> str | None:
    """Return what speaks against a cure; None where it removed its finding and did nothing else."""
    what = _said if fix.is_certain else _kind
    before, now = (Counter(map(what, one.findings)) for one in (examined, after))
    if now[what(found)] >= before[what(found)]:
        return "it would still be found afterwards"
    if examined.design is None:
        doubtful = fix.is_certain and _leaves_doubt(fix, before, after)
        return "the file could then not be read" if doubtful else None
    new = now - before
    for other in after.findings:
        is_progress = found.is_error and not other.is_error and not fix.is_certain
        if new[what(other)] and not is_progress:
            return f"`{other.slug}` would be found then: {other.message}"
    if fix.is_certain and not _says_the_same(examined, after):
        return "the file would mean something else"
    return None


def _leaves_doubt(fix: Fix, before: Counter[tuple[str, str]], after: Examined) -> bool:
    """Whether the reader then finds new errors in a cure's own lines that have no certain cure."""
    lines = {edit.span.line for edit in fix.edits}
    return after.design is None and any(
        found.is_error and found.span.line in lines and not (found.fix and found.fix.is_certain)
        for found in after.findings
        if found.said not in before
    )


def _says_the_same(before: Examined, after: Examined) -> bool:
    """Whether a file still means what it meant; if it could not be built, it meant nothing yet."""
    if before.design is None or not before.is_sound:
        return True
    return after.design is not None and (
        mounted_meaning(before.design) == mounted_meaning(after.design)
    )


def _said(found: Diagnostic) -> tuple[str, str]:
    return found.said


def _kind(found: Diagnostic) -> tuple[str, str]:
    """Return the kind alone: what else is said of a keyboard may change with it."""
    return found.slug, ""
