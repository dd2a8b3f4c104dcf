"""Whether the edges of a board fit its pins, and each other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from matrixgen.boards.json_places import JsonPath, JsonPlaces
from matrixgen.boards.problems import PROBLEMS
from matrixgen.families import FAMILIES, PinPlace
from matrixgen.model.diagnostic import Diagnostic, Note

BAD = PROBLEMS["bad-profile"]


def by_edges(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    """Yield an edge or a pin given twice, and each word that is not quite a pin's name.

    Words that are no pin's name at all stand for supplies and the like, and may come again.
    """
    names = {pin["name"] for pin in document["pins"]}
    first: dict[str, JsonPath] = {}
    for path, word in _entries(document):
        if word in names or path[-1] == "side":
            earlier = first.setdefault(word, path)
            if earlier != path:
                yield _twice(word, path, earlier, places)
        else:
            yield from _misspelt(word, path, document, places)


def _entries(document: dict[str, Any]) -> Iterator[tuple[JsonPath, str]]:
    """Yield each side and each word along it, with its place."""
    for number, edge in enumerate(document.get("edges", [])):
        yield ("edges", number, "side"), edge["side"]
        for place, word in enumerate(edge["pins"]):
            yield ("edges", number, "pins", place), word


def _twice(word: str, path: JsonPath, earlier: JsonPath, places: JsonPlaces) -> Diagnostic:
    what = "is described twice" if path[-1] == "side" else "is in two places along the edges"
    return BAD.at(
        places.values[path],
        f"`{word}` {what}",
        notes=[Note("the other one is here", places.values[earlier])],
    )


def _misspelt(
    word: str, path: JsonPath, document: dict[str, Any], places: JsonPlaces
) -> Iterator[Diagnostic]:
    """Yield a word that was meant as the name of a pin, as far as one can tell."""
    meant = next((pin for pin in document["pins"] if _means(word, pin, document)), None)
    if meant and meant.get("label") == word:
        yield BAD.at(
            places.values[path],
            f"`{word}` is the label of the pin, and its name is wanted here",
            help=f"write `{meant['name']}`",
        )
    elif meant:
        yield BAD.at(
            places.values[path],
            f"no pin is called `{word}`",
            help=f"there is a `{meant['name']}`",
        )
    elif _is_missing(word, document):
        yield BAD.at(
            places.values[path],
            f"the profile has no pin `{word}`",
            help="add it to `pins`; one that is not for a line is `reserved`",
        )


def _means(word: str, pin: dict[str, Any], document: dict[str, Any]) -> bool:
    """Whether a word that is not a pin's name is another way to write it."""
    place = _place(word, document)
    return (
        pin.get("label") == word
        or pin["name"].casefold() == word.casefold()
        or (place is not None and place == _place(pin["name"], document))
    )


def _is_missing(word: str, document: dict[str, Any]) -> bool:
    """Whether a word is a pin of the chip's family that is not among the profile's.

    Not where one of those has a name that is none of the family: it may be that pin.
    """
    usable = (pin["name"] for pin in document["pins"] if pin["use"] != "reserved")
    return all(_place(name, document) is not None for name in (word, *usable))


def _place(name: str, document: dict[str, Any]) -> PinPlace | None:
    family = FAMILIES.get(document["family"])
    return family.place_of(name) if family else None
