"""XML to a tree of elements, with bounds: no entities, so nothing is fetched or multiplied."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NoReturn
from xml.parsers import expat

from matrixgen.drawing.traces import MOST_SHAPES
from matrixgen.reading import Refused

DEEPEST = 100
"""Groups within groups."""


class Element:
    """An element: its name and attributes without prefixes, its children, its parent's layer."""

    def __init__(self, name: str, attributes: dict[str, str]) -> None:
        self.name = name
        self.attributes = attributes
        self.children: list[Element] = []

    def every(self) -> Iterator[Element]:
        """Yield it and all below it, parents first."""
        yield self
        for child in self.children:
            yield from child.every()


def elements_of(data: bytes) -> Element:
    """Return the root of an XML document; raises `Refused`."""
    builder = _Builder()
    parser = expat.ParserCreate()
    parser.StartElementHandler = builder.start
    parser.EndElementHandler = builder.end
    parser.EntityDeclHandler = _refuse_entity
    try:
        parser.Parse(data, True)
    except expat.ExpatError as error:
        what = expat.ErrorString(error.code)
        raise Refused(f"line {error.lineno} is not XML: {what}") from error
    except (LookupError, ValueError) as error:  # an encoding that Python does not know
        raise Refused("its XML cannot be decoded", "save it as UTF-8") from error
    assert builder.root  # else the parser has refused it
    return builder.root


class _Builder:
    def __init__(self) -> None:
        self.root: Element | None = None
        self._open: list[Element] = []
        self._number = 0

    def start(self, name: str, attributes: dict[str, str]) -> None:
        self._number += 1
        if self._number > 2 * MOST_SHAPES:
            raise Refused(f"it has more than {2 * MOST_SHAPES:,} elements")
        if len(self._open) == DEEPEST:
            raise Refused(f"its groups are more than {DEEPEST} deep")
        # A label's prefix is a program's own: `label` is its last part, and no attribute of SVG.
        own = {key.rpartition(":")[2]: value for key, value in attributes.items()} | attributes
        element = Element(name.rpartition(":")[2], own)
        if self._open:
            self._open[-1].children.append(element)
        else:
            self.root = element
        self._open.append(element)

    def end(self, _: str) -> None:
        self._open.pop()


def _refuse_entity(*_: object) -> NoReturn:
    raise Refused("it declares XML entities, which are not read", "save it as plain SVG")
