"""What a board answers for itself, on the screen and as a text that its maker can send in."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from matrixgen import __version__
from matrixgen.bench.serial.self_report import Answers, answer_lines, answer_warnings
from matrixgen.boards import Profile
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.wrap import wrapped
from matrixgen.cli.write_file import write_bytes
from matrixgen.failure import Failure

TOO_OLD = "load the bench firmware that matrixgen builds now, and run `probe` again"


def board_lines(answers: Answers, profile: Profile) -> Iterator[str]:
    """Yield what a board answers, and what of that to look at; nothing if it answers nothing."""
    if not answers.facts:
        return
    yield "what the board answers for itself:"
    for line in answer_lines(answers):
        yield from wrapped(clean(line), "  ")
    for line in answer_warnings(answers, profile):
        yield from wrapped(clean(f"warning: {line}"), "  ")


def report_text(answers: Answers, profile: Profile) -> str:
    """Return all that a board answered, as it was said and in words; nothing of the file."""
    said = [f"fact {name} {' '.join(words)}" for name, words in answers.facts.items()]
    said += [f"rises {pin} {'never' if us is None else us}" for pin, us in answers.rises.items()]
    head = [
        f"matrixgen {clean(__version__)}",
        f"controller {clean(profile.name)}",
        f"chip {clean(answers.chip)}",
    ]
    return "\n".join([*head, "", *said, "", *board_lines(answers, profile)]) + "\n"


def write_report(path: str, answers: Answers, profile: Profile) -> None:
    """Write the report; raises `Failure`."""
    if not answers.facts:
        raise Failure("the bench firmware is an old one and answers nothing for itself", TOO_OLD)
    write_bytes(Path(path), report_text(answers, profile).encode("utf-8"))
