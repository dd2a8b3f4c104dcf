"""`matrixgen check --fix FILE...`: applies what leaves no doubt, and says what it did."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from difflib import unified_diff
from pathlib import Path

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.printer import clean, place
from matrixgen.jobs.catalogue import catalogue, find_problem
from matrixgen.jobs.examine import STANDARD_INPUT, examine
from matrixgen.jobs.fix import Fixed, fixed
from matrixgen.model import SourceText
from matrixgen.model.prose import counted
from matrixgen.model.reason import reason_of
from matrixgen.model.similar import similar_help
from matrixgen.source.limits import LIMITS
from matrixgen.source.load import load_text


def fix_files(paths: list[str], asked: list[str]) -> int:
    """Apply the cures of each file, print what was changed, and return the exit status so far.

    `asked` has the names of findings whose cure is wanted although it changes what the file says.
    """
    for slug in asked:
        if find_problem(slug) is None:
            return complain(f"no finding is called `{slug}`", *_similar(slug))
    if STANDARD_INPUT in paths:
        return complain("standard input cannot be changed", "name the file itself")
    for path in paths:
        source = load_text(path, None, LIMITS)
        if isinstance(source, SourceText):
            done = fixed(examine(path), source, Path(path).parent, asked)
            if done.cured and (reason := _write(Path(path), done.text)):
                return complain(f"`{path}` cannot be written: {reason}")
            print("".join(f"{line}\n" for line in _told(source, done)), end="")
    return FINE


def _told(source: SourceText, done: Fixed) -> Iterator[str]:
    """Yield each cure, and the lines that have changed."""
    for found in done.cured:
        assert found.fix
        yield f"{place(found.span)}: fixed[{found.slug}]: {clean(found.fix.says)}"
    if done.cured:
        after = SourceText(source.path, done.text)
        diff = list(unified_diff(source.lines, after.lines, lineterm="", n=0))
        yield from (f"  {clean(line)}" for line in diff[2:] if not line.startswith("@@"))
        yield f"fixed {counted(len(done.cured), 'finding')} in {clean(source.path)}\n"


def _write(path: Path, text: str) -> str | None:
    """Write a file whole or not at all; return why it could not be written, or None.

    A link stays a link, and the file keeps its mode.
    """
    path = path.resolve()
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
        aside = Path(name)
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
                file.write(text)
            aside.chmod(path.stat().st_mode & 0o7777)
            aside.replace(path)
        finally:
            aside.unlink(missing_ok=True)
    except OSError as error:
        return reason_of(error)
    return None


def _similar(slug: str) -> list[str]:
    help = similar_help(slug, catalogue())
    return [help] if help else []
