"""`matrixgen check --fix FILE...`: applies what leaves no doubt, and says what it did."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import place
from matrixgen.cli.write_file import changed_lines, rewrite_file
from matrixgen.failure import Failure
from matrixgen.jobs.catalogue import catalogue, find_problem
from matrixgen.jobs.examine import STANDARD_INPUT, examine
from matrixgen.jobs.fix import Fixed, fixed
from matrixgen.model import SourceText
from matrixgen.model.old_slugs import current_slug
from matrixgen.model.prose import counted
from matrixgen.similar import similar_help
from matrixgen.source.limits import LIMITS
from matrixgen.source.load import load_text


def fix_files(paths: list[str], asked: list[str]) -> None:
    """Apply the cures of each file, and print what was changed; raises `Failure`.

    `asked` has the names of findings whose cure is wanted although it changes what the file says.
    """
    asked = [*map(current_slug, asked)]
    for slug in asked:
        if find_problem(slug) is None:
            raise Failure(f"no finding is called `{slug}`", *_similar(slug))
    if STANDARD_INPUT in paths:
        raise Failure("standard input cannot be changed", "name the file itself")
    for path in paths:
        source = load_text(path, None, LIMITS)
        if isinstance(source, SourceText):
            done = fixed(examine(path), source, Path(path).parent, asked)
            if done.cured:
                rewrite_file(Path(path), source, done.text)
            print("".join(f"{line}\n" for line in _report(source, done)), end="")


def _report(source: SourceText, done: Fixed) -> Iterator[str]:
    """Yield each cure, and the lines that have changed."""
    for found in done.cured:
        assert found.fix
        yield f"{place(found.span)}: fixed[{found.slug}]: {clean(found.fix.says)}"
    for refusal in done.refused:
        at = place(refusal.found.span) if refusal.found else clean(source.path)
        yield f"{at}: not fixed[{refusal.slug}]: {clean(refusal.why)}"
    if done.cured:
        yield from changed_lines(source, SourceText(source.path, done.text))
        yield f"fixed {counted(len(done.cured), 'finding')} in {clean(source.path)}\n"


def _similar(slug: str) -> list[str]:
    help = similar_help(slug, catalogue())
    return [help] if help else []
