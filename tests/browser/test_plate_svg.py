"""The plate's drawing as a browser measures it: each opening at its place and its true size."""

from __future__ import annotations

import pytest

from matrixgen.jobs.plate import PlateOptions, plate_file
from tests.plate.plates import NAMES, holes, keyboard_of, outline, switches

BOXES = """([layer, kind]) => [...document.querySelectorAll(`#${layer} ${kind}`)].map((one) => {
    const box = one.getBBox();
    return [box.x, box.y, box.x + box.width, box.y + box.height];
})"""


@pytest.mark.parametrize("name", NAMES)
def test_openings_and_outline_are_where_they_belong(page, tmp_path, name):
    keyboard = keyboard_of(name)
    drawing = plate_file(keyboard, ".svg", PlateOptions()).decode()
    file = tmp_path / "page.html"
    file.write_text(f"<!DOCTYPE html><title>plate</title>{drawing}", encoding="utf-8")
    page.goto(file.as_uri())
    for layer, kind, shapes in (
        ("outline", "path", [outline(keyboard.plate)]),
        ("switches", "path", switches(keyboard.plate)),
        ("holes", "circle", holes(keyboard.plate)),
    ):
        found = page.evaluate(BOXES, [layer, kind])
        assert len(found) == len(shapes)
        for shape in shapes:
            assert any(box == pytest.approx(shape.bounds, abs=0.01) for box in found)
    width = page.evaluate("document.querySelector('svg').getBoundingClientRect().width")
    assert width == pytest.approx(
        page.evaluate("document.querySelector('svg').viewBox.baseVal.width") * 96 / 25.4, abs=0.1
    )
