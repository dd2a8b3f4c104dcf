"""`matrixgen fmt FILE...`: each file in its canonical form, whole or not at all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import unified_diff
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING

from matrixgen.cli.check import UNREADABLE
from matrixgen.cli.complain import BAD_USE, FINDINGS, FINE, complain, tell_failure
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.write_file import put_out, rewrite_file
from matrixgen.failure import Failure
from matrixgen.format.formatted import formatted
from matrixgen.jobs.examine import SHOWN_STANDARD_INPUT, STANDARD_INPUT, standard_input
from matrixgen.model import Diagnostic, SourceText
from matrixgen.model.prose import counted
from matrixgen.record import Record
from matrixgen.source.limits import LIMITS
from matrixgen.source.load import load_text

if TYPE_CHECKING:
    import argparse

    Arguments = argparse.Namespace | SimpleNamespace


class Outcome(Record):
    """What became of a file: its exit status, and whether its form was or is to be changed."""

    status: int
    is_changed: bool


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "files", nargs="+", metavar="FILE", help="a .keys file, or - for stdin to stdout"
    )
    parser.add_argument(
        "--check",
        action="store_true",
        help="write nothing; name the files that are not in canonical form, and exit with 1 if "
        "there are any",
    )
    parser.add_argument(
        "--diff", action="store_true", help="write nothing; print what would change"
    )


def without_options(words: list[str]) -> SimpleNamespace | None:
    """Return the arguments of a plain list of files, or None where there is none."""
    return SimpleNamespace(files=words, check=False, diff=False) if words else None


def run(arguments: Arguments) -> int:
    """Format each file once, print what was changed and return the exit status."""
    paths = list(dict.fromkeys(arguments.files))
    writes = not (arguments.check or arguments.diff)
    if writes and STANDARD_INPUT in paths and len(paths) > 1:
        return complain("`-` cannot be given with files", "format the files by another call")
    outcomes = [_outcome(path, arguments) for path in paths]
    if len(outcomes) > 1 and not arguments.diff:
        changed = sum(one.is_changed for one in outcomes)
        verb = "formatted" if writes else "would format"
        print(f"{verb} {changed} of {counted(len(outcomes), 'file')}")
    return max(one.status for one in outcomes)


def _outcome(path: str, arguments: Arguments) -> Outcome:
    """Format a file; what cannot be done with it keeps none of the others from its form."""
    try:
        return _format(path, arguments)
    except Failure as failure:
        return Outcome(tell_failure(failure), False)


def _format(path: str, arguments: Arguments) -> Outcome:
    source = _loaded(path)
    if isinstance(source, Diagnostic):
        return Outcome(_refused(path, None, [source]), False)
    made = formatted(source)
    if made.findings:
        return Outcome(_refused(source.path, source.text, made.findings), False)
    if made.text is None:
        raise Failure(
            f"`{source.path}` was left as it is: its canonical form would mean something else",
            "this is a mistake in matrixgen, not in the file; please report it",
        )
    return _apply(path, source, made.text, arguments)


def _apply(path: str, source: SourceText, text: str, arguments: Arguments) -> Outcome:
    """Show or write the new text of a file, and say so."""
    is_changed = text != source.original
    if arguments.check or arguments.diff:
        if is_changed:
            _show(source, text, arguments)
        return Outcome(FINDINGS if is_changed and arguments.check else FINE, is_changed)
    if path == STANDARD_INPUT:
        put_out(text.encode("utf-8"))
        return Outcome(FINE, is_changed)
    if is_changed:
        rewrite_file(Path(path), source, text)
        print(f"formatted {clean(path)}")
    return Outcome(FINE, is_changed)


def _show(source: SourceText, text: str, arguments: Arguments) -> None:
    """Print what would change: the name of the file, or each line."""
    if arguments.diff:
        print(diff_of(source, text), end="")
    else:
        print(f"would format {clean(source.path)}")


def _loaded(path: str) -> SourceText | Diagnostic:
    if path != STANDARD_INPUT:
        return load_text(path, None, LIMITS)
    return load_text(SHOWN_STANDARD_INPUT, standard_input(), LIMITS)


def _refused(path: str, text: str | None, findings: Sequence[Diagnostic]) -> int:
    """Print why a file cannot be formatted: what cannot be read has no form."""
    tell(findings, {path: text} if text is not None else {})
    return BAD_USE if any(found.slug in UNREADABLE for found in findings) else FINDINGS


NO_END = "\\ No newline at end of file"


def diff_of(source: SourceText, text: str) -> str:
    """Return the changed lines with three around them; where line ends alone differ, that."""
    after = SourceText(source.path, text)
    name = clean(source.path)
    lines = list(
        unified_diff(
            _with_ends(source), _with_ends(after), name, f"{name} (formatted)", lineterm="\n"
        )
    )
    if not lines:
        return f"{name}: its line ends are of more than one kind\n"
    return "".join(_told(lines))


def _with_ends(source: SourceText) -> list[str]:
    """Return the lines of a text with their line feeds; the last may have none."""
    *ended, last = source.text.split("\n")
    return [f"{line}\n" for line in ended] + [last] * bool(last)


def _told(lines: list[str]) -> Iterator[str]:
    for line in lines:
        text = line.removesuffix("\n")
        yield "\t".join(map(clean, text.split("\t"))) + "\n"
        if text == line:
            yield f"{NO_END}\n"
