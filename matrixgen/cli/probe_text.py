"""The verdict of a probe as a person reads it, and what the board answers for itself.

The latter is also a text that its maker can send in.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from matrixgen import __version__
from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.serial.self_report import Answers, answer_lines, answer_warnings
from matrixgen.bench.verdicts.words import parts_of
from matrixgen.boards import Profile
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.wrap import wrapped
from matrixgen.cli.write_file import write_bytes
from matrixgen.failure import Failure
from matrixgen.jobs.probe import Probed
from matrixgen.model.prose import counted, quoted

MOST_SHOWN = 4
"""Explanations that are written out, of those with fewest faults; of more, only the number is
given. JSON has all."""


def verdict_lines(probed: Probed) -> Iterator[str]:
    """Yield the verdict, most likely first, and what to do."""
    yield from _not_known(probed)
    yield from _knobs(probed)
    if probed.verdict.is_whole:
        if probed.not_pressed:
            yield "not enough was pressed to say that nothing is wrong: press every key once"
        elif not probed.not_turned:
            yield _all_is_well(probed)
        return
    yield "unplug the keyboard before you measure or solder"
    yield from _causes(probed)
    if probed.verdict.unexplained:
        yield f"not explained: {quoted(map(clean, probed.verdict.unexplained))}"
    yield "fix the first one, then run `probe` again"


def _all_is_well(probed: Probed) -> str:
    knobs = probed.design.keyboard.knobs
    if probed.knob_faults:
        return "every key is where the file has it"
    what = "every key and every knob" if knobs else "every key"
    return f"{what} is where the file has it: nothing is wrong"


def _knobs(probed: Probed) -> Iterator[str]:
    """Yield what is wrong with knobs, and which were not turned."""
    for knob, fault in probed.knob_faults:
        yield from wrapped(clean(f"the knob `{knob}` {fault}"), "")
    if probed.not_turned:
        yield f"not turned: {quoted(map(clean, probed.not_turned))}"


def _not_known(probed: Probed) -> Iterator[str]:
    """Yield what is not known: the keys that were not pressed, and the lines that were lost."""
    keys, missing = len(probed.board.keys), len(probed.not_pressed)
    if missing:
        yield f"{keys - missing} of {counted(keys, 'key')} were pressed"
    if probed.broken_lines:
        lines = counted(probed.broken_lines, "line")
        yield f"{lines} from the port came broken or not at all, and everything was read again"


def _causes(probed: Probed) -> Iterator[str]:
    causes = [cause for cause in probed.verdict.causes if cause.size]
    if not causes:
        yield "no set of faults explains any of this"
    least = [cause for cause in causes if cause.size == causes[0].size][:MOST_SHOWN]
    for number, cause in enumerate(least):
        yield from _cause(probed, cause, is_first=number == 0)
    more = len(causes) - len(least)
    if more:
        are, them = ("is", "it") if more == 1 else ("are", "them")
        yield f"{counted(more, 'more explanation')} {are} less likely: `--json` lists {them}"


def _cause(probed: Probed, cause: Explanation, *, is_first: bool) -> Iterator[str]:
    at_once = f", {cause.size} faults at once" if cause.size > 1 else ""
    head = "what explains it" if is_first else "or"
    if probed.verdict.unexplained:
        explained, wrong = probed.explained_keys(cause)
        head = f"this explains {explained} of {counted(wrong, 'key')}"
    yield f"{head}{at_once}:"
    for part in parts_of(probed.board, cause):
        yield from wrapped(clean(part.says), "  ")
        yield from wrapped(clean(part.advice), "    ")
    if probed.cured_text(cause) is not None:
        yield "    `--fix` corrects the file instead, if this is the only explanation left"


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
