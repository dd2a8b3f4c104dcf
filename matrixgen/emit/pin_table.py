"""The pin table: what the person with the soldering iron reads, as Markdown and as CSV."""

from __future__ import annotations

import csv
import io

from matrixgen.boards import Mounted, Pin, Profile, diode_name
from matrixgen.emit.bench_words import Cautions
from matrixgen.emit.boot_loader_ways import boot_loader_ways
from matrixgen.emit.component_rows import ComponentRow, component_rows
from matrixgen.emit.jinja import environment
from matrixgen.emit.outside_text import csv_cell
from matrixgen.emit.wire_colours import WireColour, wire_colours
from matrixgen.model import Axis, Diode, Keyboard, matrix_of
from matrixgen.record import Record

CSV_COLUMNS = ("kind", "name", "scan", "pin", "label", "wire", "wire_chosen_by", "keys", "remark")


class WireRow(Record, kw_only=True):
    """One line of the matrix as the table shows it."""

    name: str
    scan: str
    pin: Pin
    wire: WireColour
    keys: tuple[str, ...]


class PinTable(Cautions, Record, kw_only=True):
    """Everything that `pins.md` and `pins.csv` say; `diode` is their part, if there are any."""

    keyboard: Keyboard
    profile: Profile
    rows: tuple[WireRow, ...]
    columns: tuple[WireRow, ...]
    components: tuple[ComponentRow, ...]
    spare: tuple[Pin, ...]
    reserved: tuple[Pin, ...]
    diode: str

    @property
    def weak_supply(self) -> str | None:
        """What a supply that may be too low for the chip's clock asks for; None where it is not."""
        least, needed = min(self.profile.supplies), self.profile.clock_volts
        if needed is None or least >= needed:
            return None
        return (
            f"A weak USB port may leave the chip {least:g} V, and {self.profile.clock_hz / 1e6:g} "
            f"MHz are only guaranteed from {needed:g} V: plug the keyboard into the computer "
            "itself, or into a hub with a supply of its own."
        )

    @property
    def has_suggestions(self) -> bool:
        """Whether any wire's colour is ours, not the file's."""
        return not all(row.wire.from_file for row in self.rows + self.columns)

    @property
    def has_knots(self) -> bool:
        """Whether knots tell any wire from another."""
        return any(row.wire.knots for row in self.rows + self.columns)

    @property
    def has_rectangles(self) -> bool:
        """Whether keys can stand at the corners of a rectangle of rows and columns."""
        return len(self.rows) > 1 and len(self.columns) > 1

    @property
    def has_boot_loader(self) -> bool:
        """Whether the controller has a boot loader to be entered."""
        return self.profile.has_boot_loader

    @property
    def rom_entry(self) -> str | None:
        """How a boot loader in the chip's ROM is entered, whatever the flash holds."""
        family = self.profile.family_record
        return family.rom_entry if family else None

    @property
    def loader_takes_no_call(self) -> bool:
        """Whether nothing but its reset button starts the boot loader."""
        entry = self.profile.boot_loader_entry
        return entry is not None and entry.kind == "reset button"

    @property
    def loader_start(self) -> str:
        """How the firmware starts the boot loader, and who says that it is right."""
        entry = self.profile.boot_loader_entry
        if entry is None or entry.address is None:
            start = self.profile.room_bytes
            return f"by a jump to 0x{start:X}, where its part of the flash begins, which is a guess"
        if entry.kind == "jump":
            return f"by a jump to 0x{entry.address:X} ({entry.source})"
        mark = f"0x{entry.value:04X} at 0x{entry.address:04X} of RAM"
        return f"by a reset by the watchdog, with the mark {mark} ({entry.source})"

    @property
    def boot_loader_ways(self) -> tuple[str, ...]:
        """How the file says that it is entered, a sentence each."""
        return tuple(boot_loader_ways(self.keyboard))

    @property
    def used(self) -> int:
        """How many pins are in use."""
        return len(self.rows) + len(self.columns) + sum(len(one.pins) for one in self.components)

    @property
    def second_duties(self) -> tuple[WireRow, ...]:
        """The lines whose pin has something else to do as well."""
        return tuple(row for row in self.rows + self.columns if row.pin.duty)

    def keys_with(self, diode: Diode) -> tuple[str, ...]:
        """Return the keys whose diode is like this, in plate order."""
        return tuple(one.key for one in matrix_of(self.keyboard).contacts if one.diode == diode)


def pin_table(mounted: Mounted) -> PinTable:
    """Return the table of a keyboard whose lines end on pins that the profile knows."""
    stated = mounted.keyboard.wiring.diodes
    return PinTable(
        diode=diode_name(stated.part, mounted.diode) if stated else "",
        keyboard=mounted.keyboard,
        profile=mounted.profile,
        rows=_wire_rows(mounted, "row"),
        columns=_wire_rows(mounted, "column"),
        components=component_rows(mounted),
        spare=mounted.spare_pins,
        reserved=tuple(pin for pin in mounted.profile.pins if pin.use == "reserved"),
    )


def markdown(table: PinTable, loading: tuple[str, ...] = ()) -> str:
    """Return `pins.md`; `loading` are sentences on how the image gets into the controller."""
    return environment().get_template("pins.md.j2").render(table=table, loading=loading)


def comma_separated(table: PinTable) -> str:
    """Return `pins.csv` (RFC 4180): one record a line of the matrix, then one a spare pin.

    Between them is one for each pin of a light or a knob. A cell that a spreadsheet would take for
    a formula begins with an apostrophe.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(CSV_COLUMNS)
    for kind, rows in (("row", table.rows), ("column", table.columns)):
        writer.writerows(map(csv_cell, _record(kind, row)) for row in rows)
    for one in table.components:
        for pin in one.pins:
            record = (one.kind, one.name, "", pin.name, pin.label or "-", "", "", "", one.soldered)
            writer.writerow(map(csv_cell, record))
    for kind, pins in (("spare", table.spare), ("reserved", table.reserved)):
        for pin in pins:
            record = (kind, "", "", pin.name, pin.label or "", "", "", "", pin.duty or "")
            writer.writerow(map(csv_cell, record))
    return out.getvalue()


def _record(kind: str, row: WireRow) -> tuple[str, ...]:
    chosen_by = "file" if row.wire.from_file else "suggestion"
    keys = " ".join(row.keys)
    label = row.pin.label or ""
    remark = row.pin.duty or ""
    return (kind, row.name, row.scan, row.pin.name, label, row.wire.shown, chosen_by, keys, remark)


def _wire_rows(mounted: Mounted, axis: Axis) -> tuple[WireRow, ...]:
    wiring = mounted.keyboard.wiring
    colours = wire_colours(wiring)
    return tuple(
        WireRow(
            name=wired.line.name.text,
            scan="driven" if axis == wiring.drive else "sensed",
            pin=wired.pin,
            wire=colours[wired.line.name.text],
            keys=tuple(key.text for key in wired.line.visits),
        )
        for wired in mounted.wired
        if wired.line.axis == axis
    )
