"""What an editor can do: a finding's fix, an `allow` for its place, a wiring that is missing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from matrixgen.editor.open_file import OpenFile, OpenText
from matrixgen.editor.rewriting import at_the_end, edits_to, touches
from matrixgen.failure import Failure
from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.jobs.fix import tried
from matrixgen.model import Diagnostic, Edit
from matrixgen.record import Record
from matrixgen.source.edits import edited


class EditOffered(Record, kw_only=True):
    """Something that can be done: what it does, its edits, and the finding that it is for.

    `is_sure` is whether every reader of the file would do the same.
    """

    title: str
    edits: tuple[Edit, ...]
    found: Diagnostic | None = None
    is_sure: bool = False


def cures(file: OpenFile, examined: Examined, lines: range) -> Iterator[EditOffered]:
    """Yield what can be done about the findings that touch some lines."""
    for found in examined.findings:
        if found.span.path == file.path and touches(found.span, lines):
            yield from _fixed(file.now, examined, found)
            yield from _allowed(file.now, examined, found)


def _fixed(text: OpenText, examined: Examined, found: Diagnostic) -> Iterator[EditOffered]:
    """Yield the finding's own fix, if it holds."""
    fix = found.fix
    if fix is None or isinstance(tried(found, examined, text.source, text.folder), str):
        return
    yield EditOffered(title=fix.says, edits=fix.edits, found=found, is_sure=fix.is_certain)


def _allowed(text: OpenText, examined: Examined, found: Diagnostic) -> Iterator[EditOffered]:
    """Yield an `allow` of a warning at its place, if then that is gone and nothing else found."""
    if found.is_error:
        return
    for place in _places(text, found):
        statement = f"allow {found.slug}{place}"
        edit = _into_keyboard(text, statement)
        new = edited(text.source, [edit]) if edit else None
        if edit is None or new is None:
            return
        after = examine_text(text.source.path, new, text.folder)
        before = {one.said for one in examined.findings}
        now = {one.said for one in after.findings}
        if now < before and found.said not in now:
            yield EditOffered(title=f"write `{statement}`", edits=(edit,), found=found)
            return


def _places(text: OpenText, found: Diagnostic) -> Iterator[str]:
    """Yield the names that a finding is about, that which it marks first; at last none."""
    line = text.source.line(found.span.line)
    marked = line[found.span.column - 1 : found.span.end_column - 1]
    yield from (f" {one}" for one in sorted(found.about, key=lambda one: (one != marked, one)))
    yield ""


def _into_keyboard(text: OpenText, statement: str) -> Edit | None:
    """Return the edit that adds a statement to the block `keyboard`; None where there is none."""
    for block in text.tree.blocks:
        if block.header.rule == "keyboard":
            return at_the_end(text, block, statement)
    return None


def can_be_wired(examined: Examined) -> bool:
    """Whether a file lacks a wiring and nothing else keeps one from being written."""
    design = examined.design
    is_bare = design is not None and not design.keyboard.wiring.lines
    return is_bare and examined.is_sound and bool(design and design.keyboard.keys)


def wiring(text: OpenText, examined: Examined) -> tuple[Edit, ...] | str:
    """Return the edits that write a wiring as `matrixgen fit` does, or why there is none."""
    from matrixgen.jobs.fit import fit_of  # only here: it is slow to import
    from matrixgen.jobs.fit_wiring import Asked, drafted

    try:
        draft = drafted(fit_of(examined), str(Path(examined.path)), Asked(None, None, None), _quiet)
    except Failure as refused:
        return refused.text
    return tuple(edits_to(text.source, draft.text))


def _quiet(*_: object) -> None:
    """Take a step of a search, and show it to nobody."""
