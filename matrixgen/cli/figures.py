"""`matrixgen figures FILE`: every electrical figure of a keyboard, to people or to a script.

Mistakes in the file do not keep them back: how many ghosts there are is asked just then.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from typing import Any

from matrixgen.boards import Mounted
from matrixgen.circuit.figures import Figure, Input, Section, Source, figures_of, ghost_section
from matrixgen.circuit.units import shown
from matrixgen.cli.check import exit_status
from matrixgen.cli.fit_to_print import clean, clean_lines
from matrixgen.cli.json_report import print_report
from matrixgen.cli.printer import tell
from matrixgen.cli.summary import unfinished
from matrixgen.cli.wrap import wrapped
from matrixgen.jobs.examine import Examined, examine
from matrixgen.model import Keyboard
from matrixgen.model.prose import counted
from matrixgen.record import values_of

SCHEMA_ID = "urn:matrixgen:figures:1"
"""Names `templates/figures.schema.json`."""

Parts = list[tuple[str | None, list[Section]]]
"""The figures of the keyboard itself, by None, and those on each controller, by its name."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file, or - for stdin")
    parser.add_argument("--json", action="store_true", help="print them as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the figures of a file on each of its controllers, and return the exit status."""
    examined = examine(arguments.file)
    if examined.design is None:
        tell(examined.findings, examined.texts)
        return exit_status([examined])
    parts = parts_of(examined.design.keyboard, examined.mounted)
    if arguments.json:
        print_report(report(examined, parts))
    else:
        last = map(clean, _last_lines(examined, is_empty=not parts))
        print("\n".join([*map(clean_lines, text(parts)), *last]))
    return exit_status([examined])


def parts_of(keyboard: Keyboard, mounted: Sequence[Mounted]) -> Parts:
    """Return the figures of a keyboard; none where it has no wires yet."""
    if not keyboard.wiring.lines:
        return []
    return [
        (None, [ghost_section(keyboard)]),
        *((one.profile.name, figures_of(one)) for one in mounted),
    ]


def _last_lines(examined: Examined, *, is_empty: bool) -> Iterator[str]:
    """Yield what is to be known of the figures: why there are none, what is wrong, what is open."""
    path = examined.path
    if is_empty:
        yield f"{path}: no wires yet, so there is nothing to calculate"
        yield f"    help: `matrixgen fit {path}` shows which it could have"
    if examined.errors:
        errors = counted(len(examined.errors), "error")
        yield f"{path}: {errors}, which may change these figures: `matrixgen check {path}`"
    yield from unfinished([examined])


def text(parts: Parts) -> Iterator[str]:
    """Yield the lines of a report: sections, their figures, and last where values are from."""
    sources = _Sources()
    for name, sections in parts:
        if name is not None:
            yield f"On `{name}`\n"
        for section in sections:
            yield section.title
            for figure in section.figures:
                yield from _figure(figure, sources)
            yield ""
    yield from sources.listed()


class _Sources:
    """The sources that a report names, numbered as it meets them."""

    def __init__(self) -> None:
        self._numbers: dict[Source, int] = {}

    def mark(self, source: Source | None) -> str:
        if source is None:
            return ""
        return f" [{self._numbers.setdefault(source, len(self._numbers) + 1)}]"

    def listed(self) -> Iterator[str]:
        if self._numbers:
            yield "Sources"
        for source, number in self._numbers.items():
            label = f"  [{number}]".ljust(7)
            yield from wrapped(f"{source.of}: {source.text}", label)


def _figure(figure: Figure, sources: _Sources) -> Iterator[str]:
    value = _value(figure.value, figure.unit)
    yield from wrapped(
        f"{figure.says}{sources.mark(figure.source)}", f"  {figure.symbol:<9}{value:>10}  "
    )
    if figure.formula:
        yield from wrapped(f"= {figure.formula}", " " * 23)
    for one in figure.inputs:
        yield from _input(one, sources)


def _input(one: Input, sources: _Sources) -> Iterator[str]:
    value = _value(one.value, one.unit)
    label = f"{' ' * 23}{one.symbol:<9}{value:>10}  "
    yield from wrapped(f"{one.says}{sources.mark(one.source)}", label)


def _value(value: float | str, unit: str) -> str:
    """Return a value with its unit: a count as it is, a measure with three digits."""
    if isinstance(value, str) or unit in ("", "keys", "sets", "diodes"):
        return f"{value if isinstance(value, str) else f'{value:,g}'} {unit}".rstrip()
    return shown(value, unit)


def report(examined: Examined, parts: Parts) -> dict[str, Any]:
    """Return a report as `templates/figures.schema.json` describes it."""
    return {
        "schema": SCHEMA_ID,
        "file": examined.path,
        "errors": len(examined.errors),
        "figures": [
            {"controller": name, "section": section.title, **_as_json(figure)}
            for name, sections in parts
            for section in sections
            for figure in section.figures
        ],
    }


def _as_json(figure: Figure) -> dict[str, Any]:
    return {**_value_json(figure, "formula"), "inputs": [*map(_value_json, figure.inputs)]}


def _value_json(one: Figure | Input, *more: str) -> dict[str, Any]:
    """Return a value, what it is and where it is from."""
    source = f"{one.source.of}: {one.source.text}" if one.source else None
    return {**values_of(one, "symbol", "value", "unit", "says", *more), "source": source}
