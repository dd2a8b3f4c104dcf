"""`matrixgen check FILE...`: every mistake of each file, to people or to a script."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from types import SimpleNamespace
from typing import TYPE_CHECKING

from matrixgen.cli.complain import BAD_USE, FINDINGS, FINE
from matrixgen.cli.summary import pin_budget, summary
from matrixgen.jobs.examine import Examined, examine
from matrixgen.model import Diagnostic

if TYPE_CHECKING:
    import argparse

UNREADABLE = frozenset({"unreadable-file", "not-utf8"})
"""Findings that mean that there was nothing to check."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("files", nargs="+", metavar="FILE", help="a .keys file, or - for stdin")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print the findings as JSON")
    form.add_argument("--sarif", action="store_true", help="print the findings as SARIF 2.1.0")


def without_options(words: list[str]) -> SimpleNamespace | None:
    """Return the arguments of a plain list of files, or None where there is none."""
    return SimpleNamespace(files=words, json=False, sarif=False) if words else None


def run(arguments: argparse.Namespace | SimpleNamespace) -> int:
    """Check each file once, print what was found and return the exit status."""
    examined = [examine(path) for path in dict.fromkeys(arguments.files)]
    findings = [found for one in examined for found in one.findings]
    print(_report(arguments, examined, findings))
    return exit_status(findings)


def exit_status(findings: Sequence[Diagnostic]) -> int:
    """Return 0 for no findings, 2 where a file could not be read, or else 1."""
    if any(found.slug in UNREADABLE for found in findings):
        return BAD_USE
    return FINDINGS if findings else FINE


def _report(
    arguments: argparse.Namespace | SimpleNamespace,
    examined: Sequence[Examined],
    findings: Sequence[Diagnostic],
) -> str:
    if arguments.json:
        from matrixgen.cli.findings_json import as_json

        return as_json(findings, [one.path for one in examined])
    if arguments.sarif:
        from matrixgen.cli.sarif import as_sarif
        from matrixgen.jobs.catalogue import catalogue

        return as_sarif(findings, catalogue())
    return for_people(examined)


def for_people(examined: Sequence[Examined]) -> str:
    """Return the findings as text, an empty line between two, and at the end what sums them up.

    A sound file also gets its pin budget: what a maker must know before buying a controller.
    """
    findings = [found for one in examined for found in one.findings]
    last = "\n".join([summary(findings, len(examined)), *pin_budgets(examined)])
    if not findings:
        return last
    from matrixgen.cli.render import Printer, wants_colour  # a sound file need not wait for it

    texts = {one.path: one.text for one in examined if one.text is not None}
    printer = Printer(texts, colour=wants_colour(sys.stdout))
    return "\n\n".join([*map(printer.render, findings), last])


def pin_budgets(examined: Sequence[Examined]) -> list[str]:
    """Return the pin budget of each sound file on each of its controllers, a line each."""
    return [
        pin_budget(one.path, len(variant.keyboard.wiring.lines), variant.profile)
        for one in examined
        if one.is_sound
        for variant in one.variants
    ]
