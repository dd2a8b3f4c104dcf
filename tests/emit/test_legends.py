"""Legends of keycaps: every cap is there at its size, and its words keep within it."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from matrixgen.emit.legends import legends_svg
from matrixgen.emit.sheet.font import width_of
from tests.examples.shipped import NAMES, example

SVG = "{http://www.w3.org/2000/svg}"
ROUNDING = 0.02


def caps_of(name):
    """Return each cap's rectangle and its words, as numbers and texts."""
    root = ElementTree.fromstring(legends_svg(example(name).keyboard))
    assert root.attrib["width"].endswith("mm")
    for group in root.iter(f"{SVG}g"):
        (rect,) = group.iter(f"{SVG}rect")
        yield (
            [float(rect.attrib[one]) for one in ("x", "y", "width", "height")],
            [(text.attrib, text.text or "") for text in group.iter(f"{SVG}text")],
        )


@pytest.mark.parametrize("name", NAMES)
def test_each_cap_is_as_large_as_its_key_less_the_gap(name):
    sizes = [(round(wide, 2), round(high, 2)) for (_, _, wide, high), _ in caps_of(name)]
    keys = example(name).keyboard.keys
    assert sizes == [
        (round(key.width * 19.05 - 1.05, 2), round(key.height * 19.05 - 1.05, 2)) for key in keys
    ]


@pytest.mark.parametrize("name", NAMES)
def test_caps_lie_apart_and_words_within_their_cap(name):
    rows = {}
    for (x, y, wide, high), words in caps_of(name):
        assert words, "a cap says something"
        assert x >= 0 and x + wide <= 255
        assert x >= rows.get(y, -1.0), "caps of a row lie beside each other"
        rows[y] = x + wide
        for said, text in words:
            size, at = float(said["font-size"]), float(said["x"])
            part = {"start": 0.0, "middle": 0.5, "end": 1.0}[said["text-anchor"]]
            left = at - part * width_of(text, size)
            assert x - ROUNDING <= left and left + width_of(text, size) <= x + wide + ROUNDING
            assert y + size * 0.7 <= float(said["y"]) + ROUNDING <= y + high


def test_the_base_layer_is_large_and_others_only_where_they_give_something():
    keys = [key.name.text for key in example("whimbrel-34").keyboard.keys]
    words = dict(zip(keys, (words for _, words in caps_of("whimbrel-34")), strict=True))
    texts = [(text, float(said["font-size"])) for said, text in words["Q"]]
    assert texts[0] == ("Q", 5.0)
    assert ("1", 2.4) in texts
    assert [text for _, text in words["B"]] == ["B"]
