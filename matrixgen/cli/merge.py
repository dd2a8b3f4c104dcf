"""`matrixgen merge BASE OURS THEIRS`: two versions of a file to one, by what they say.

Git runs it as a merge driver, `matrixgen merge %O %A %B --path %P`: the result goes over OURS, and
the exit status is 0 where nothing is left to decide. Whatever happens, OURS then holds a merge,
be it git's own, since git would take what it finds there for one.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.write_file import write_bytes
from matrixgen.git import GitProblem, text_merge
from matrixgen.jobs.examine import examine_text
from matrixgen.merge import Merged, merge
from matrixgen.model import Diagnostic
from matrixgen.model.prose import counted
from matrixgen.model.reason import reason_of
from matrixgen.reach import read_argument
from matrixgen.source import read_design

STANDARD_OUTPUT = "-"

MOST_BYTES = 64_000_000
"""What is read of a version: more than a keyboard may have, since git merges that by lines."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("base", metavar="BASE", help="the version that both come from")
    parser.add_argument("ours", metavar="OURS", help="one version; the result is written over it")
    parser.add_argument("theirs", metavar="THEIRS", help="the other version")
    parser.add_argument("--path", metavar="NAME", help="what messages call the file")
    parser.add_argument(
        "-o", "--out", metavar="OUT", help="write the result there, or to - (stdout)"
    )


def run(arguments: argparse.Namespace) -> int:
    """Merge, write the result and return the exit status: 1 for conflicts."""
    paths = [Path(one) for one in (arguments.base, arguments.ours, arguments.theirs)]
    shown = arguments.path or arguments.ours
    out = arguments.out or arguments.ours
    try:
        versions = [read_argument(path, MOST_BYTES) for path in paths]
    except OSError as error:
        name = getattr(error, "filename", None) or "a file"
        return complain(f"`{name}` cannot be read: {reason_of(error)}")
    merged = _merged(versions)
    if merged is None:
        return _as_text(paths, versions, shown, out)
    failed = _write(out, merged.text.encode())
    if failed:
        return failed
    if merged.conflicts:
        return _tell_conflicts(shown, merged)
    return _tell_new_errors(shown, [version.decode() for version in versions], merged.text)


def _merged(versions: list[bytes]) -> Merged | None:
    """Return the merge of three versions; None where one of them does not read."""
    try:
        base, ours, theirs = (version.decode() for version in versions)
        return merge(base, ours, theirs)
    except UnicodeDecodeError:
        return None
    except Exception as error:  # git would take OURS, as it is, for the merge: theirs would be lost
        print(f"matrixgen: a mistake of its own: {error!r}; please report it", file=sys.stderr)
        return None


def _write(out: str, data: bytes) -> int:
    """Write the result; return 0, or the exit status where it cannot be written."""
    if out == STANDARD_OUTPUT:
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        return FINE
    reason = write_bytes(Path(out), data)
    return complain(f"`{out}` cannot be written: {reason}") if reason else FINE


def _tell_conflicts(shown: str, merged: Merged) -> int:
    """Say what is left to decide."""
    for about in merged.conflicts:
        print(f"{clean(shown)}: conflict: {clean(about)}", file=sys.stderr)
    print(f"    help: `matrixgen check {clean(shown)}` shows the lines", file=sys.stderr)
    return FINDINGS


def _tell_new_errors(shown: str, versions: list[str], text: str) -> int:
    """Say what is wrong with a merge that is not wrong with either side."""
    if text in versions:
        return FINE
    folder = Path(shown).parent
    known = {_said(one) for version in versions[1:] for one in _errors(shown, version, folder)}
    new = [one for one in _errors(shown, text, folder) if _said(one) not in known]
    if not new:
        return FINE
    tell(new, {shown: text})
    number = counted(len(new), "error")
    print(f"{clean(shown)}: merged, with {number} that neither side has", file=sys.stderr)
    return FINDINGS


def _errors(shown: str, text: str, folder: Path) -> list[Diagnostic]:
    return [found for found in examine_text(shown, text, folder).findings if found.is_error]


def _said(found: Diagnostic) -> tuple[str, str]:
    return found.slug, found.message


def _as_text(paths: list[Path], versions: list[bytes], shown: str, out: str) -> int:
    """Write git's own merge, and say why it is not matrixgen's."""
    text = text_merge(paths[0], paths[1], paths[2])
    if isinstance(text, GitProblem):
        return complain(text.text, *text.helps)
    print(f"{clean(shown)}: merged line by line: {_unread(versions)}", file=sys.stderr)
    failed = _write(out, text.data)
    if failed or not text.conflicts:
        return failed
    print(f"{clean(shown)}: {counted(text.conflicts, 'conflict')}", file=sys.stderr)
    return FINDINGS


def _unread(versions: list[bytes]) -> str:
    """Return which of the versions does not read, and the first reason."""
    for name, version in zip(("the base", "our version", "their version"), versions, strict=True):
        _, findings = read_design(name, version.decode("utf-8", "surrogateescape"))
        wrong = next((found for found in findings if found.is_error), None)
        if wrong:
            place = f"line {wrong.span.line} of {name}"
            return f"{place} does not read: {clean(wrong.message)}"
    return "its parts could not be told apart"
