"""Pictures as they were written, read back by an XML parser."""

from __future__ import annotations

import functools
from xml.etree import ElementTree

from matrixgen.emit.sheet import Sheet, sheet_of
from matrixgen.jobs.sheet import pictures, sheet_of_examined
from tests.examples.shipped import example
from tests.texts import examined

SVG = "{http://www.w3.org/2000/svg}"

Point = tuple[float, float]


@functools.cache
def sheet(name: str) -> Sheet:
    shipped = example(name)
    press = {"reason": "not asked for"}
    return sheet_of(shipped.keyboard, str(shipped.path), press, shipped.mounted)


def sheet_in(text: str) -> Sheet:
    """Return the bench sheet of a text's keyboard on its first controller."""
    found = examined(text)
    assert found.design
    return sheet_of_examined(found, found.design, found.mounted[0])


def drawn(name: str) -> dict[str, ElementTree.Element]:
    """Return each picture's root by what its file's name ends with."""
    return {
        ending: ElementTree.fromstring(content) for ending, content in pictures(sheet(name)).items()
    }


def points(element: ElementTree.Element) -> list[Point]:
    """Return the points of a polygon or polyline."""
    pairs = (pair.split(",") for pair in element.attrib["points"].split())
    return [(float(x), float(y)) for x, y in pairs]


def of_class(root: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    return [one for one in root.iter() if name in one.get("class", "").split()]


def middle(corners: list[Point]) -> Point:
    return sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)
