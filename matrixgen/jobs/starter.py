"""A commented starter file that checks clean, on the free pins of a controller."""

from __future__ import annotations

from pathlib import Path

from matrixgen.boards import Pin, Profile, usual_diode
from matrixgen.boards.paths import as_written
from matrixgen.circuit.over_supply import diode_for
from matrixgen.emit.jinja import environment
from matrixgen.format.formatted import formatted
from matrixgen.jobs.examine import examine_text
from matrixgen.model import Axis, SourceText
from matrixgen.record import Record

ROWS = (("1", "2", "3", "Backspace"), ("4", "5", "6", "Enter"), ("7", "8", "9", "More"))
"""The starter's keys: every one but the last types what its name says."""


class Wire(Record):
    """One line of the starter's wiring; `shown` is its keys as the file lists them."""

    axis: Axis
    name: str
    pin: Pin
    shown: str


NEEDED_PINS = len(ROWS) + len(ROWS[0])


def starter(name: str, path: Path, profile: Profile) -> str:
    """Return the text of a starter file for `path`, with a diode that is sure to do."""
    return _text(name, path, profile, _sure_diode(path, profile))


def _sure_diode(path: Path, profile: Profile) -> str:
    """Return the usual diode, or one that drops less where keys may not read low with it."""
    usual = usual_diode()
    text = _text(path.stem, path, profile, usual.name)
    for mounted in examine_text(str(path), text, path.parent).mounted:
        return diode_for(mounted, usual).name
    return usual.name


def _text(name: str, path: Path, profile: Profile, diode: str) -> str:
    """Return the text with some diode."""
    controller = profile.name
    if profile.path:
        controller = as_written(profile.path, path.parent)
    text = (
        environment()
        .get_template("starter.keys.j2")
        .render(
            name=name,
            file_name=path.name,
            controller=controller,
            diode=diode,
            rows=[" ".join(row) for row in ROWS],
            lines=_wires(profile),
        )
    )
    return formatted(SourceText(str(path), text)).text or text


def _wires(profile: Profile) -> list[Wire]:
    pins = iter(profile.free_pins)
    runs = (f"{keys[0]} to {keys[-1]}" for keys in ROWS)
    rows = [Wire("row", f"r{n}", next(pins), run) for n, run in enumerate(runs)]
    columns = [
        Wire("column", f"c{n}", next(pins), " ".join(keys))
        for n, keys in enumerate(zip(*ROWS, strict=True))
    ]
    return rows + columns
