"""`matrixgen boards [NAME|PATH]`: the controllers, or one controller's pins."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence

from matrixgen.boards import Pin, Profile, builtin_names, builtin_profile, load_named
from matrixgen.cli.complain import BAD_USE, FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.json_report import print_report
from matrixgen.cli.printer import tell
from matrixgen.model import Diagnostic
from matrixgen.record import values_of

SCHEMA_ID = "urn:matrixgen:boards:1"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "controller",
        nargs="?",
        metavar="NAME|PATH",
        help="list the pins of this one (default: list all controllers)",
    )
    parser.add_argument("--json", action="store_true", help="print the same as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the list or one controller, and return the exit status."""
    if arguments.controller is None:
        found = [profile for name in builtin_names() if (profile := builtin_profile(name))]
        if arguments.json:
            print_report({"schema": SCHEMA_ID, "controllers": [*map(_facts, found)]})
        else:
            print(listing(found))
        return FINE
    profile, findings = load_named(arguments.controller)
    if profile is None:
        return _refuse(findings)
    if arguments.json:
        print_report({"schema": SCHEMA_ID, "controller": plain(profile)})
    else:
        print(details(profile))
    return FINE


def _refuse(findings: Sequence[Diagnostic]) -> int:
    first = findings[0]
    if first.slug in ("unknown-controller", "unreadable-profile") and first.span.column == 1:
        return complain(first.message, *first.helps, slug=first.slug)
    tell(findings, {})
    return BAD_USE if first.slug == "unreadable-profile" else FINDINGS


def _facts(profile: Profile) -> dict[str, object]:
    return {
        **values_of(profile, "name", "title", "chip"),
        "usable_pins": len(profile.usable_pins),
        **values_of(profile, "room_bytes", "ram_bytes", "port", "proof"),
    }


def plain(value: object) -> object:
    """Return a record, and the records in it, as JSON knows them."""
    if isinstance(value, tuple):
        return [plain(part) for part in value]
    fields: tuple[str, ...] | None = getattr(value, "__match_args__", None)
    return {n: plain(one) for n, one in values_of(value, *fields).items()} if fields else value


def listing(profiles: Sequence[Profile]) -> str:
    """Return a table with a line a controller, none longer than 80 characters."""
    head = ("name", "chip", "pins", "firmware", "what it is")
    rows = [(p.name, p.chip, str(len(p.usable_pins)), p.proof, _rest_of(p)) for p in profiles]
    notes = (
        "pins: those that a wire may end on.\n"
        "firmware: how far it has been tested; `emulated` means on an emulator only.\n"
        "pins only: there is none yet; pins are counted and the wiring is checked."
    )
    return f"{table([head, *rows], right=(2,))}\n\n{notes}"


def _rest_of(profile: Profile) -> str:
    """Return a title without the chip's name, which has a column of its own."""
    return profile.title.removeprefix(profile.chip).lstrip(", ")


def details(profile: Profile) -> str:
    """Return what is known of one controller: figures, sources and every pin."""
    pins = [("pin", "label", "use", "remark")]
    pins += [(p.name, p.label or "", p.use, _remark(p)) for p in profile.pins]
    usable = len(profile.usable_pins)
    return (
        f"{clean(profile.name)}: {clean(profile.title)}\n\n{table(_figures(profile))}\n\n"
        f"A wire may end on {usable} of these pins:\n\n{table(pins)}"
        f"{_asked(profile)}{_around(profile)}"
    )


def _asked(profile: Profile) -> str:
    """Return what second duties ask of a maker, the least first; nothing where none does."""
    pins_by_advice: dict[str, list[str]] = {}
    for pin in profile.usable_pins:
        if pin.advice:
            pins_by_advice.setdefault(pin.advice, []).append(pin.shown)
    if not pins_by_advice:
        return ""
    rows = [(", ".join(pins), advice) for advice, pins in pins_by_advice.items()]
    return f"\n\nWhat shared pins need, the least first, as `fit` uses them:\n\n{table(rows)}"


def _around(profile: Profile) -> str:
    """Return what a bare chip needs around it; nothing where none is known."""
    if not profile.around:
        return ""
    rows = [(one.part, one.where, one.why, one.source) for one in profile.around]
    head = ("part", "where", "why", "source")
    return f"\n\nThe chip needs around it:\n\n{table([head, *rows])}"


def _remark(pin: Pin) -> str:
    """Return what else a pin does, and what the board has on it."""
    return f"{pin.duty} ({pin.part})" if pin.duty and pin.part else pin.duty or ""


def _figures(profile: Profile) -> list[tuple[str, str]]:
    """Return what is known of a controller as a whole, each with its name."""
    sheet = profile.datasheet
    return [
        ("chip", f"{profile.chip}, {profile.clock_hz / 1e6:g} MHz, {profile.supply_volts:g} V"),
        *_supply(profile),
        ("firmware", _firmware(profile)),
        (
            "flash",
            f"{profile.room_bytes} bytes, and {profile.boot_loader_bytes} for the boot loader",
        ),
        *_loader(profile),
        ("RAM", f"{profile.ram_bytes} bytes"),
        ("pull-up", f"{profile.pull_up_ohm_min:g} to {profile.pull_up_ohm_max:g} Ω"),
        ("reads low", f"at {profile.input_low_volts:g} V or less"),
        ("reads high", f"at {profile.input_high_volts:g} V or more"),
        ("pulls low", _output(profile)),
        ("datasheet", f"{sheet.title}, {sheet.document}, section {sheet.section}"),
        *((f"source of {what.replace('_', ' ')}", text) for what, text in profile.sources),
    ]


def _supply(profile: Profile) -> Iterator[tuple[str, str]]:
    """Yield the range of the supply, who says so, and what the chip needs for its clock."""
    if profile.supply:
        yield "supply", f"{profile.supply.min:g} to {profile.supply.max:g} V at the pins"
        yield "source of that", profile.supply.source
    if profile.clock_volts:
        yield "clock", f"guaranteed from {profile.clock_volts:g} V"


def _loader(profile: Profile) -> Iterator[tuple[str, str]]:
    """Yield how firmware starts the boot loader and how that is loaded, where it is known."""
    entry = profile.boot_loader_entry
    if entry is not None:
        address, value = entry.address or 0, entry.value or 0
        ways = {
            "jump": f"by a jump to 0x{address:X}",
            "watchdog mark": f"by a reset with 0x{value:04X} at 0x{address:04X}",
            "reset button": "only by its reset button",
        }
        yield "boot loader starts", ways[entry.kind]
        yield "source of that", entry.source
    if profile.boot_loader_speaks:
        yield "boot loader takes", f"an image by {profile.boot_loader_speaks}"


def _firmware(profile: Profile) -> str:
    """Return whether firmware can be built for a controller, and how far it has been tried."""
    if profile.port is None:
        return "none yet: pins are counted and the wiring is checked"
    return profile.proof


def _output(profile: Profile) -> str:
    """Return what is known of a pin that pulls low."""
    limits = [
        f"{ampere * 1000:g} mA {of}"
        for of, ampere in (("per pin", profile.sink_ampere), ("in all", profile.total_sink_ampere))
        if ampere is not None
    ]
    most = f", at most {' and '.join(limits)}" if limits else ""
    drive = ""
    if profile.drive_ampere:
        strength = f"{profile.drive_ampere * 1000:g} mA"
        drive = f" at a drive strength of {strength}, which the firmware sets and is not a limit"
    return f"through {profile.output_low_ohm:g} Ω{drive}{most}"


def table(rows: Sequence[Sequence[str]], right: Sequence[int] = ()) -> str:
    """Return rows as columns two blanks apart; the columns in `right` end flush."""
    cells = [[*map(clean, row)] for row in rows]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    return "\n".join(
        "  ".join(
            cell.rjust(width) if place in right else cell.ljust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in cells
    )
