"""Legends of keycaps: every cap is there at its size, and its words keep within it."""

from __future__ import annotations

from itertools import combinations
from xml.etree import ElementTree

import pytest
from shapely.geometry import box

from matrixgen.emit.legends import PAPERS, legends_svg, sheets_of
from matrixgen.emit.sheet.font import width_of
from matrixgen.source import read_design
from tests.examples.shipped import NAMES, example
from tests.texts import keyboard_in

SVG = "{http://www.w3.org/2000/svg}"
ROUNDING = 0.02


def drawn(root):
    """Return each cap's rectangle and its words, as numbers and texts."""
    for group in root.iter(f"{SVG}g"):
        (rect,) = group.iter(f"{SVG}rect")
        yield (
            [float(rect.attrib[one]) for one in ("x", "y", "width", "height")],
            [(text.attrib, text.text or "") for text in group.iter(f"{SVG}text")],
        )


def caps_of(name):
    root = ElementTree.fromstring(legends_svg(example(name).keyboard))
    assert root.attrib["width"].endswith("mm")
    return list(drawn(root))


def size_of(key):
    return round(key.width * 19.05 - 1.05, 2), round(key.height * 19.05 - 1.05, 2)


@pytest.mark.parametrize("name", NAMES)
def test_each_cap_is_as_large_as_its_key_less_the_gap(name):
    """All of them come first; what has no room in the corners follows."""
    sizes = [(round(wide, 2), round(high, 2)) for (_, _, wide, high), _ in caps_of(name)]
    keys = example(name).keyboard.keys
    assert sizes[: len(keys)] == [size_of(key) for key in keys]
    assert set(sizes) == {size_of(key) for key in keys}
    assert (len(sizes) > len(keys)) == (len(example(name).keyboard.layers) > 5)


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


def box_of(said, text):
    size, at, foot = (float(said[one]) for one in ("font-size", "x", "y"))
    wide = width_of(text, size)
    left = at - {"start": 0.0, "middle": 0.5, "end": 1.0}[said["text-anchor"]] * wide
    return box(left, foot - 0.75 * size, left + wide, foot)


@pytest.mark.parametrize("name", NAMES)
def test_no_words_of_a_cap_lie_on_others(name):
    for _, words in caps_of(name):
        for one, other in combinations([box_of(*said) for said in words], 2):
            shared = one.intersection(other)
            assert shared.area < 0.05


def test_the_base_layer_is_large_and_others_only_where_they_give_something():
    keys = [key.name.text for key in example("whimbrel-34").keyboard.keys]
    words = dict(zip(keys, (words for _, words in caps_of("whimbrel-34")), strict=False))
    texts = [(text, float(said["font-size"])) for said, text in words["Q"]]
    assert texts[0] == ("Q", 5.0)
    assert ("1", 2.4) in texts
    assert [text for _, text in words["B"]] == ["B"]


def many_layers(count):
    """A keyboard on whose layers each key that is given something has it there alone."""
    text = "plate\n  line A B LeftShift:2.25\n  line C:1x2 Space:20\n"
    usages = [f"{word}+{sign}" for word in ("Ctrl", "Alt", "GUI") for sign in "QWERTYUIOP"]
    for number in range(count):
        name = f"layer-{number}" if number else "base"
        text += f"\nlayer {name}\n  {'A' if number % 3 else 'C'} = {usages[number]}\n"
    return keyboard_in(text), usages[:count]


@pytest.mark.parametrize("count", [1, 5, 6, 9, 10, 30])
def test_no_layer_is_lost(count):
    keyboard, usages = many_layers(count)
    root = ElementTree.fromstring(legends_svg(keyboard))
    texts = [one.text or "" for one in root.iter(f"{SVG}text")]
    assert set(usages[1:]) <= set(texts)
    titles = " ".join(text for text in texts if " layer-" in f" {text}" or "middle" in text)
    for layer in keyboard.layers:
        assert f" {layer.name.text}" in titles
    assert titles.count("In the middle: layer base") == max(1, -(-(count - 1) // 4))


def test_a_cap_whose_words_are_not_its_key_s_name_has_it_below():
    keyboard, _ = many_layers(2)
    root = ElementTree.fromstring(legends_svg(keyboard))
    on_caps = {id(text) for group in root.iter(f"{SVG}g") for text in group.iter(f"{SVG}text")}
    below = [one.text for one in root.iter(f"{SVG}text") if id(one) not in on_caps]
    assert below[1:] == ["LeftShift", "C", "Space is really 379.9 by 18.0 mm"]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", [*NAMES, "30 layers"])
def test_each_cap_is_on_one_sheet_of_paper_and_apart_from_others(name, paper):
    keyboard = many_layers(30)[0] if name == "30 layers" else example(name).keyboard
    sheets = sheets_of(keyboard, PAPERS[paper])
    width, height = {"A4": (190, 277), "Letter": (195.9, 259.4)}[paper]
    found = 0
    for sheet in sheets:
        boxes = []
        for one in sheet.stickers:
            x, y = one.at
            boxes.append(box(x, y, x + one.sticker.width, y + one.sticker.height))
        for words in sheet.words:
            wide = width_of(words.text, words.size)
            foot = words.at[1]
            boxes.append(box(words.at[0], foot - 0.75 * words.size, words.at[0] + wide, foot))
        assert boxes and all(
            0 <= one.bounds[0] <= one.bounds[2] <= width + 1e-6
            and 7 <= one.bounds[1] <= one.bounds[3] <= height
            for one in boxes
        )
        assert not any(one.intersects(other) for one, other in combinations(boxes, 2))
        found += len(sheet.stickers)
    root = ElementTree.fromstring(legends_svg(keyboard))
    assert found == len(list(drawn(root)))


def test_what_short_forms_mean_stands_below_the_caps():
    root = ElementTree.fromstring(legends_svg(example("whimbrel-34").keyboard))
    said = " ".join(one.text or "" for one in root.iter(f"{SVG}text"))
    assert "PTrack is PreviousTrack" in said and "BDown is BrightnessDown" in said


def test_the_letters_of_a_narrow_key_stay_near_its_middle():
    text = "plate\n  line A:0.25 B\n\nlayer base\n  A = Q\n\nlayer x\n  A = W\n\nlayer y\n  A = E\n"
    design, _ = read_design("narrow.keys", text)
    root = ElementTree.fromstring(legends_svg(design.keyboard))
    (_, words), _ = drawn(root)
    places = {text: float(said["x"]) for said, text in words}
    assert 0 < places["W"] < places["Q"] < places["E"] < 3.72
