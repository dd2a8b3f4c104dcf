"""The verdict of a probe as a person reads it."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.bench.explanation import Explanation
from matrixgen.bench.words import parts_of
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.wrap import wrapped
from matrixgen.jobs.probe import Probed
from matrixgen.model.prose import counted, quoted

MOST_SHOWN = 4
"""Explanations that are written out; of more, only the number is given. JSON has all."""


def verdict_lines(probed: Probed) -> Iterator[str]:
    """Yield the verdict, most likely first, and what to do."""
    verdict, keys = probed.verdict, len(probed.board.keys)
    pressed = len(probed.seen.keys)
    if pressed < keys:
        yield f"{pressed} of {counted(keys, 'key')} were pressed; nothing is known about the others"
    if verdict.is_whole:
        yield "every key that was pressed is where the file has it: nothing is wrong"
        return
    for number, cause in enumerate(verdict.causes[:MOST_SHOWN]):
        yield from _cause(probed, cause, "what explains it" if number == 0 else "or")
    more = len(verdict.causes) - MOST_SHOWN
    if more > 0:
        yield f"{counted(more, 'less likely explanation')} more: `--json` has them"
    if verdict.unexplained:
        yield f"not explained: {quoted(map(clean, verdict.unexplained))}"
    yield "fix the first one, then run `probe` again"


def _cause(probed: Probed, cause: Explanation, head: str) -> Iterator[str]:
    if cause.size == 0:
        return
    at_once = f", {cause.size} faults at once" if cause.size > 1 else ""
    yield f"{head}{at_once}:"
    for part in parts_of(probed.board, cause):
        yield from wrapped(clean(part.says), "  ")
        yield from wrapped(clean(part.advice), "    ")
    if probed.cured_text(cause) is not None:
        yield "    or correct the file instead of soldering: `--fix` does, if this is listed first"
