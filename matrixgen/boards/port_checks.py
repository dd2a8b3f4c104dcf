"""Whether firmware can be built from a profile that names a port, and what one without may say."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from matrixgen.boards.json_places import JsonPlaces
from matrixgen.boards.problems import PROBLEMS
from matrixgen.families import FAMILIES, Family
from matrixgen.model.diagnostic import Diagnostic, Note
from matrixgen.model.prose import listed, quoted
from matrixgen.similar import similar_help

BAD = PROBLEMS["bad-profile"]

NO_FIRMWARE = '`"port": null`'
"""What a profile says of a chip that nothing can be built for."""


def by_port(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    """Yield what the port's firmware cannot be built from, which else its compiler would say."""
    port, family = document["port"], document["family"]
    if port is not None and port != family:
        yield _of_other_family(port, family, places)
    elif port is not None:
        yield from _by_family(FAMILIES[family], document, places)


def _of_other_family(port: str, family: str, places: JsonPlaces) -> Diagnostic:
    known = f'write `"port": "{family}"`' if family in FAMILIES else similar_help(family, FAMILIES)
    none = f"where there is no firmware for the chip, write {NO_FIRMWARE}"
    return BAD.at(
        places.values["port",],
        f"the port `{port}` is not for the family `{family}`",
        help=[*filter(None, [known]), none],
        notes=[Note("the family is given here", places.values["family",])],
    )


def _by_family(
    family: Family, document: dict[str, Any], places: JsonPlaces
) -> Iterator[Diagnostic]:
    if document["chip"].lower() not in family.chips:
        yield BAD.at(
            places.values["chip",],
            f"the port `{family.name}` has no firmware for the chip `{document['chip']}`",
            help=f"write {NO_FIRMWARE}, and `check` works all the same",
            notes=[Note(f"it has firmware for {quoted(family.chips)}")],
        )
    if family.clocks_hz and document["clock_hz"] not in family.clocks_hz:
        clocks = listed(map(str, family.clocks_hz), "or")
        yield BAD.at(
            places.values["clock_hz",],
            f"the port `{family.name}` needs a clock of {clocks} Hz, which it makes 48 MHz of",
        )
    for number, pin in enumerate(document["pins"]):
        if pin["use"] != "reserved" and family.place_of(pin["name"]) is None:
            yield BAD.at(
                places.values["pins", number, "name"],
                f"`{pin['name']}` is not the name of a pin of the family `{family.name}`",
                help=f"write the datasheet's, such as `{family.pin_example}`; "
                "the word on the board is the `label`",
            )
