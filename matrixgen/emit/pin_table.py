"""The pin table: what the person with the soldering iron reads, as Markdown and as CSV."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

from matrixgen.boards import Pin, Profile
from matrixgen.boards.abilities import has_boot_loader
from matrixgen.emit.boot_loader_ways import boot_loader_ways
from matrixgen.emit.jinja import environment
from matrixgen.emit.wire_colours import WireColour, wire_colours
from matrixgen.model import Axis, Keyboard, Line

CSV_COLUMNS = ("kind", "name", "scan", "pin", "label", "wire", "wire_chosen_by", "keys", "remark")


@dataclass(frozen=True, slots=True)
class WireRow:
    """One line of the matrix as the table shows it; `number` counts within its axis, from 0."""

    number: int
    name: str
    scan: str
    pin: Pin
    wire: WireColour
    keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PinTable:
    """Everything that `pins.md` and `pins.csv` say."""

    keyboard: Keyboard
    profile: Profile
    rows: tuple[WireRow, ...]
    columns: tuple[WireRow, ...]
    spare: tuple[Pin, ...]
    reserved: tuple[Pin, ...]

    @property
    def has_suggestions(self) -> bool:
        """Whether any wire's colour is ours, not the file's."""
        return not all(row.wire.from_file for row in self.rows + self.columns)

    @property
    def has_rectangles(self) -> bool:
        """Whether keys can stand at the corners of a rectangle of rows and columns."""
        return len(self.rows) > 1 and len(self.columns) > 1

    @property
    def has_boot_loader(self) -> bool:
        """Whether the controller has a boot loader to be entered."""
        return has_boot_loader(self.profile)

    @property
    def boot_loader_ways(self) -> tuple[str, ...]:
        """How the file says that it is entered, a sentence each."""
        return boot_loader_ways(self.keyboard)

    @property
    def second_duties(self) -> tuple[WireRow, ...]:
        """The lines whose pin has something else to do as well."""
        return tuple(row for row in self.rows + self.columns if row.pin.duty)


def pin_table(keyboard: Keyboard, profile: Profile) -> PinTable:
    """Return the table of a keyboard whose every line has a pin that the profile knows."""
    taken = {_pin(line, profile).name for line in keyboard.wiring.lines}
    return PinTable(
        keyboard,
        profile,
        _wire_rows(keyboard, profile, "row"),
        _wire_rows(keyboard, profile, "column"),
        tuple(pin for pin in profile.usable_pins if pin.name not in taken),
        tuple(pin for pin in profile.pins if pin.use == "reserved"),
    )


def markdown(table: PinTable) -> str:
    """Return `pins.md`."""
    return environment().get_template("pins.md.j2").render(table=table)


def comma_separated(table: PinTable) -> str:
    """Return `pins.csv` (RFC 4180): one record a line of the matrix, then one a spare pin."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(CSV_COLUMNS)
    for kind, rows in (("row", table.rows), ("column", table.columns)):
        writer.writerows(_record(kind, row) for row in rows)
    for kind, pins in (("spare", table.spare), ("reserved", table.reserved)):
        for pin in pins:
            writer.writerow((kind, "", "", pin.name, pin.label or "", "", "", "", pin.duty or ""))
    return out.getvalue()


def _record(kind: str, row: WireRow) -> tuple[str, ...]:
    chosen_by = "file" if row.wire.from_file else "suggestion"
    keys = " ".join(row.keys)
    label = row.pin.label or ""
    remark = row.pin.duty or ""
    return (kind, row.name, row.scan, row.pin.name, label, row.wire.name, chosen_by, keys, remark)


def _wire_rows(keyboard: Keyboard, profile: Profile, axis: Axis) -> tuple[WireRow, ...]:
    wiring = keyboard.wiring
    colours = wire_colours(wiring)
    scan = "driven" if axis == wiring.drive else "sensed"
    return tuple(
        WireRow(
            number,
            line.name.text,
            scan,
            _pin(line, profile),
            colours[line.name.text],
            tuple(key.text for key in line.visits),
        )
        for number, line in enumerate(wiring.of_axis(axis))
    )


def _pin(line: Line, profile: Profile) -> Pin:
    """Return the line's pin; the rules have seen to it that there is one."""
    pin = profile.pin(line.pin.text) if line.pin else None
    assert pin is not None, f"line {line.name} was let through without a pin"
    return pin
