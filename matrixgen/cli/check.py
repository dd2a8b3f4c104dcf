"""`matrixgen check FILE...`: every mistake of each file, to people or to a script."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from types import SimpleNamespace
from typing import TYPE_CHECKING

from matrixgen.cli.complain import BAD_USE, FINDINGS, FINE
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.summary import allowed, pin_budgets, summary, unfinished
from matrixgen.jobs.examine import Examined, examine

if TYPE_CHECKING:
    import argparse

MANY = 10
"""Files whose check may take more than a second."""

UNREADABLE = frozenset({"unreadable-file", "not-utf8"})
"""Findings that mean that there was nothing to check."""

PLAIN: dict[str, object] = {
    "json": False,
    "sarif": False,
    "strict": False,
    "finished": False,
    "allowed": False,
    "coverage": False,
    "fix": False,
    "cure": [],
}
"""The options of a command line that has none."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    from matrixgen.cli.parser import old_option

    parser.add_argument("files", nargs="+", metavar="FILE", help="a .keys file, or - for stdin")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print the findings as JSON")
    form.add_argument("--sarif", action="store_true", help="print the findings as SARIF 2.1.0")
    form.add_argument(
        "--fix",
        action="store_true",
        help="first apply every unambiguous fix, and show what changed",
    )
    parser.add_argument(
        "--fix-also",
        action="append",
        default=[],
        dest="cure",
        metavar="NAME",
        help="like --fix, and also fix findings of this name, although that changes what is "
        "soldered or typed; may be given more than once",
    )
    old_option(parser, "--cure", "cure", action="append")
    parser.add_argument("--strict", action="store_true", help="exit with 1 for warnings too")
    parser.add_argument(
        "--finished", action="store_true", help="count missing parts as errors, as build does"
    )
    parser.add_argument(
        "--allowed", action="store_true", help="show how many warnings each `allow` hides"
    )
    parser.add_argument(
        "--coverage",
        action="store_true",
        help="list the symbols, and the keys for editing, moving, functions and media, that no "
        "layer has",
    )


def without_options(words: list[str]) -> SimpleNamespace | None:
    """Return the arguments of a plain list of files, or None where there is none."""
    return SimpleNamespace(files=words, **PLAIN) if words else None


def run(arguments: argparse.Namespace | SimpleNamespace) -> int:
    """Check each file once, print what was found and return the exit status."""
    paths = list(dict.fromkeys(arguments.files))
    if arguments.fix or arguments.cure:
        from matrixgen.cli.fixes import fix_files

        fix_files(paths, arguments.cure)
    examined = _examined(paths)
    if arguments.finished:
        examined = [one.as_built_for_all() for one in examined]
    if arguments.json:
        from matrixgen.cli.findings_json import as_json
        from matrixgen.cli.json_report import print_report

        print_report(as_json(examined, tell_coverage=arguments.coverage))
    else:
        print(_report(arguments, examined))
    return exit_status(examined, strict=arguments.strict)


def _examined(paths: Sequence[str]) -> list[Examined]:
    """Check files; of many, show how far that is."""
    if len(paths) < MANY:
        return [examine(path) for path in paths]
    from matrixgen.cli.progress import progress_bar  # a few files need not wait for it

    found = []
    with progress_bar("checking", len(paths)) as progress:
        for path in paths:
            found.append(examine(path))
            progress()
    return found


def exit_status(examined: Sequence[Examined], *, strict: bool = False) -> int:
    """Return 0 for no errors, 2 where a file could not be read, or else 1; `strict` counts all."""
    findings = [found for one in examined for found in one.findings]
    if any(found.slug in UNREADABLE for found in findings):
        return BAD_USE
    return FINDINGS if any(strict or found.is_error for found in findings) else FINE


def _report(arguments: argparse.Namespace | SimpleNamespace, examined: Sequence[Examined]) -> str:
    if arguments.sarif:
        from matrixgen.cli.sarif import as_sarif
        from matrixgen.jobs.catalogue import catalogue

        return as_sarif([found for one in examined for found in one.findings], catalogue())
    return for_people(examined, tell_allowed=arguments.allowed, tell_coverage=arguments.coverage)


def _coverage(examined: Sequence[Examined]) -> Iterator[str]:
    from matrixgen.cli.coverage import coverage_lines  # few ask for it

    return coverage_lines(examined)


def for_people(
    examined: Sequence[Examined], *, tell_allowed: bool = False, tell_coverage: bool = False
) -> str:
    """Return the findings as text, an empty line between two, and at the end what sums them up.

    A sound file also gets its pin budget: what a maker must know before buying a controller.
    """
    findings = [found for one in examined for found in one.findings]
    last = [
        *(_coverage(examined) if tell_coverage else ()),
        *(allowed(examined) if tell_allowed else ()),
        *pin_budgets(examined),
        summary(examined),
        *unfinished(examined),
    ]
    last = [*map(clean, last)]
    if not findings:
        return "\n".join(last)
    from matrixgen.cli.printer import Printer, wants_colour  # a sound file need not wait for it

    texts = {path: text for one in examined for path, text in one.texts.items()}
    printer = Printer(texts, colour=wants_colour(sys.stdout))
    return "\n\n".join([*map(printer.render, findings), "\n".join(last)])
