"""`matrixgen layouts [NAME]`: the layouts of computers, or what one of them types."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any

from matrixgen.cli.boards import table
from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.json_report import print_report
from matrixgen.cli.layout_text import details
from matrixgen.layouts import (
    SYSTEMS,
    HostLayout,
    KeyStroke,
    System,
    differing_signs,
    layout_named,
    layout_names,
    nearest_layouts,
)

SCHEMA_ID = "urn:matrixgen:layouts:1"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "layout",
        nargs="?",
        metavar="NAME",
        help="draw this one, and list its signs that differ by system (default: list all layouts)",
    )
    parser.add_argument(
        "--on",
        choices=SYSTEMS,
        metavar="SYSTEM",
        help="show what is known on linux, windows or macos (default: the keys as on Linux)",
    )
    parser.add_argument("--json", action="store_true", help="print the same as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the list or one layout, and return the exit status."""
    system: System | None = arguments.on
    if arguments.layout is None:
        return _list(system, as_json=arguments.json)
    layout = layout_named(arguments.layout, system)
    if layout is None:
        return _unknown(arguments.layout)
    if not layout.is_known:
        return complain(
            f"nothing is known of the layout `{layout.name}` on {system}",
            "without `--on` it is shown as Linux has it",
        )
    if arguments.json:
        print_report({"schema": SCHEMA_ID, "layout": _plain(layout)})
    else:
        print(details(layout))
    return FINE


def _unknown(name: str) -> int:
    near = nearest_layouts(name)
    listed = f"there {'is' if len(near) == 1 else 'are'} {', '.join(f'`{one}`' for one in near)}"
    help = listed if near else "`matrixgen layouts` lists the layouts"
    return complain(f"no layout is called `{name}`", help)


def _list(system: System | None, *, as_json: bool) -> int:
    """Print all layouts, or those of which something is known on a system."""
    found = [one for name in layout_names() if (one := layout_named(name, system))]
    known = [layout for layout in found if layout.is_known]
    if as_json:
        print_report({"schema": SCHEMA_ID, "layouts": [*map(_facts, known)]})
    else:
        print(_listing(known))
    return FINE


def _listing(layouts: Sequence[HostLayout]) -> str:
    rows = [(one.name, ", ".join(_systems(one)), one.language) for one in layouts]
    return table([("name", "known on", "language"), *rows])


def _systems(layout: HostLayout) -> tuple[System, ...]:
    return SYSTEMS if layout.is_compared else ("linux",)


def _facts(layout: HostLayout) -> dict[str, Any]:
    return {"name": layout.name, "language": layout.language, "systems": [*_systems(layout)]}


def _plain(layout: HostLayout) -> dict[str, Any]:
    """Return all of a layout, as `templates/layouts.schema.json` has it."""
    return _facts(layout) | {
        "source": layout.source,
        "on": layout.system,
        "keys": [_key(layout, usage) for usage in layout.usages],
        "signs": "".join(layout.typable()),
        "differing": [
            {"sign": one.sign, **{system: _way(way) for system, way in one.ways.items()}}
            for one in differing_signs(layout.name)
        ],
    }


def _key(layout: HostLayout, usage: int) -> dict[str, Any]:
    return {
        "usage": usage,
        "signs": [*layout.signs(usage)],
        "dead": [layout.is_dead(usage, level) for level in range(4)],
        "caps_shifts": layout.caps_shifts(usage),
    }


def _way(way: Sequence[KeyStroke] | None) -> list[dict[str, int]] | None:
    if way is None:
        return None
    return [{"usage": stroke.usage, "modifiers": stroke.modifiers} for stroke in way]
