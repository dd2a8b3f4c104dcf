"""Whether the way into a boot loader that a profile gives can lead there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from matrixgen.boards.json_places import JsonPlaces
from matrixgen.boards.problems import PROBLEMS
from matrixgen.families import FAMILIES, Family
from matrixgen.model.diagnostic import Diagnostic, Note

BAD = PROBLEMS["bad-profile"]

RAM_START = 0x100
"""Where the RAM of every AVR with USB begins in its data space."""


def by_entry(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    """Yield a way of loading that is none of the family, and an entry that leads nowhere."""
    family = FAMILIES.get(document["family"])
    yield from _by_speech(document, family, places)
    entry = document.get("boot_loader_entry")
    if entry is None:
        return
    if family and family.rom_entry and document["port"] == family.name:
        yield BAD.at(
            places.names["boot_loader_entry",],
            f"the family `{family.name}` has its boot loader in ROM, and one way into it",
            help="remove `boot_loader_entry`",
        )
    elif document["boot_loader_bytes"] == 0:
        yield BAD.at(
            places.names["boot_loader_entry",],
            "there is no boot loader to be entered",
            help="remove `boot_loader_entry`, or give the boot loader's size",
            notes=[Note("its size is given here", places.values["boot_loader_bytes",])],
        )
    else:
        yield from _by_address(entry, document, places)


def _by_speech(
    document: dict[str, Any], family: Family | None, places: JsonPlaces
) -> Iterator[Diagnostic]:
    """Yield a way to take an image for which the family has no form of image."""
    speaks = document.get("boot_loader_speaks")
    fits = family is not None and document["port"] in (None, family.name)  # else it is reported
    if speaks and family and fits and (speaks == "UF2") != (family.images[0] == "uf2"):
        yield BAD.at(
            places.values["boot_loader_speaks",],
            f"images of the family `{family.name}` are `.{family.images[0]}` files, "
            f"which are not loaded by {speaks}",
        )


def _by_address(
    entry: dict[str, Any], document: dict[str, Any], places: JsonPlaces
) -> Iterator[Diagnostic]:
    """Yield an address outside the boot loader, or of no instruction, or of a mark outside RAM."""
    address = entry.get("address", 0)
    place = places.nearest(("boot_loader_entry", "address"))
    size = document["flash_bytes"]
    if entry["kind"] == "jump" and not size - document["boot_loader_bytes"] <= address < size:
        yield BAD.at(place, f"{address} is not an address of the boot loader")
    elif entry["kind"] == "jump" and address % 2:
        yield BAD.at(place, f"{address} is odd, and no instruction begins there")
    last = RAM_START + document["ram_bytes"] - 2
    if entry["kind"] == "watchdog mark" and not RAM_START <= address <= last:
        yield BAD.at(
            place, f"a mark of two bytes at {address} is not in RAM, {RAM_START} to {last + 1}"
        )
