"""Every label of the back's picture as the browser draws it: whole, and apart from all else.

Outlines of words are those that it gives (`getBBox` and `getScreenCTM`); shapes are compared by
shapely. A name of a key has to be on its own switch; any other label touches no switch at all.
"""

from __future__ import annotations

from itertools import islice
from typing import Any

import pytest
from playwright.sync_api import Page
from shapely import LineString, Point, Polygon, STRtree, box

from matrixgen.emit.sheet import back_svg
from matrixgen.emit.sheet.back import BackPicture, back_picture
from matrixgen.emit.sheet.ink import inks
from matrixgen.model import Keyboard
from matrixgen.routing import back_of
from tests.amounts import amount, some
from tests.examples.shipped import NAMES
from tests.routing.test_lanes import PIECES, sound_drafts
from tests.sheet.pictures import sheet

BOARDS = sorted({*range(amount("MATRIXGEN_LABELS", suite=2, long=20)), 9})
"""On number 9 a name is beside a bundle of wires, which is drawn thicker than they are."""

PIXELS_A_MM = 32
"""Browsers count how high letters are in whole pixels: of so many, one hardly matters."""

MEASURED = """(scale) => {
    const picture = document.querySelector("svg.back");
    picture.style.width = `${scale * picture.viewBox.baseVal.width}px`;
    picture.style.height = `${scale * picture.viewBox.baseVal.height}px`;
    const corners = (one) => {
        const { x, y, width, height } = one.getBBox(), turn = one.getScreenCTM();
        const at = (u, v) => {
            const found = new DOMPoint(u, v).matrixTransform(turn);
            const origin = found.matrixTransform(picture.getScreenCTM().inverse());
            return [origin.x, origin.y];
        };
        return [at(x, y), at(x + width, y), at(x + width, y + height), at(x, y + height)];
    };
    const all = (selector) => [...picture.querySelectorAll(selector)];
    const lines = (selector) => all(selector).map((one) =>
        [[...one.points].map((p) => [p.x, p.y]), parseFloat(getComputedStyle(one).strokeWidth)]);
    return {
        view: [...picture.getAttribute("viewBox").split(" ")].map(Number),
        margin: all(".wire-label").map((one) => [one.textContent, corners(one)]),
        names: all(".key-name text").map((one) =>
            [one.parentNode.dataset.key, one.textContent, corners(one)]),
        wires: lines(".edge"),
        leaders: lines(".leader"),
        bodies: all(".switch").map((one) =>
            [one.dataset.key, [...one.querySelector(".body").points].map((p) => [p.x, p.y])]),
        dots: all(".joint, .leg").map((one) =>
            [one.cx.baseVal.value, one.cy.baseVal.value, one.r.baseVal.value]),
    };
}"""


def measured(page: Page, back: BackPicture) -> dict[str, Any]:
    svg = back_svg(back, alone=True)
    page.goto("about:blank")  # another page's content policy would be this one's as well
    page.set_content(svg[svg.index("<svg") :])
    found: dict[str, Any] = page.evaluate(MEASURED, PIXELS_A_MM)
    return found


def faults(found: dict[str, Any]) -> list[str]:
    """Return each label that is cut or touches something."""
    x, y, width, height = found["view"]
    view = box(x, y, x + width, y + height)
    bodies = {key: Polygon(corners) for key, corners in found["bodies"]}
    words = [(f"margin {text}", Polygon(at), None) for text, at in found["margin"]]
    words += [(f"name {text}", Polygon(at), key) for key, text, at in found["names"]]
    drawn = [LineString(points).buffer(thick / 2) for points, thick in found["wires"]]
    drawn += [LineString(points).buffer(0.05) for points, _ in found["leaders"]]
    drawn += [Point(u, v).buffer(radius) for u, v, radius in found["dots"]]
    touched = STRtree(drawn)
    labels = STRtree([shape for _, shape, _ in words])
    said = []
    for number, (text, shape, key) in enumerate(words):
        if not view.contains(shape):
            said.append(f"{text} is cut")
        if touched.query(shape, predicate="intersects").size:
            said.append(f"{text} is on a line")
        others = labels.query(shape, predicate="overlaps")
        if any(other > number and (not key or words[other][2] != key) for other in others):
            said.append(f"{text} is on another label")
        said += [
            f"{text} is on {other}"
            for other, body in bodies.items()
            if other != key and body.intersects(shape)
        ]
        if key and not bodies[key].contains(shape):
            said.append(f"{text} is not on its key")
    return said


@pytest.mark.parametrize("name", some(NAMES, 4))
def test_every_label_of_an_example_is_whole_and_touches_nothing(page, name):
    shown = sheet(name)
    found = measured(page, shown.back)
    texts = {text for text, _ in found["margin"]}
    assert len(texts) == len(shown.wires)
    for wire in shown.wires:
        printed = next(
            one.pin.label or one.pin.name
            for one in shown.mounted.wired
            if one.line.name.text == wire.ink.wire
        )
        assert f"{printed}\u00a0\u00a0{wire.ink.wire}" in texts
    written = {key: "" for key, *_ in found["names"]}
    for key, text, _ in found["names"]:
        written[key] += text
    assert written == {key.name.text: key.name.text for key in shown.keyboard.keys}
    assert faults(found) == []


@pytest.fixture(scope="module")
def drafts() -> list[Keyboard]:
    return list(islice(sound_drafts(overlapping=False), BOARDS[-1] + 1))


@pytest.mark.parametrize("number", BOARDS)
def test_every_label_of_a_drawn_plate_is_whole_and_touches_nothing(page, drafts, number):
    keyboard = drafts[number]
    back = back_of(keyboard, PIECES, apart=True)
    pins = {line.name.text: f"GP{place}" for place, line in enumerate(keyboard.wiring.lines)}
    picture = back_picture(keyboard, back, inks(keyboard.wiring), pins)
    assert faults(measured(page, picture)) == []
