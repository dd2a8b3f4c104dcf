"""The plate as a solid, read by `trimesh`: closed, and as much of it as shapely's areas say."""

from __future__ import annotations

import io

import pytest
import trimesh
from shapely import union_all

from matrixgen.jobs.plate import PlateOptions, plate_file
from matrixgen.plate.stabilisers import stabilisers_of
from tests.plate.plates import (
    NAMES,
    holes,
    in_field,
    is_pressed_by_knob,
    keyboard_of,
    outline,
    read,
    switches,
)


def solid_of(content: bytes, kind: str) -> trimesh.Trimesh:
    loaded = trimesh.load(io.BytesIO(content), file_type=kind.removeprefix("."), force="mesh")
    assert isinstance(loaded, trimesh.Trimesh)
    loaded.merge_vertices()
    return loaded


def through(plate, more: float = 0.0):
    """Return all that goes through a plate; housings of stabilisers with some more around."""
    housings = []
    for one in stabilisers_of(plate.keys):
        for side in (-1, 1):
            size = (7 + 2 * more, 15 + 2 * more)
            at = (0.9, -side * one.offset_mm) if one.is_upright else (side * one.offset_mm, 0.9)
            housings.append(in_field(one.key, *at, *(size[::-1] if one.is_upright else size)))
    return [*switches(plate), *housings, *holes(plate)], housings


@pytest.mark.few(8)
@pytest.mark.parametrize("kind", [".stl", ".3mf"])
@pytest.mark.parametrize("name", NAMES)
def test_it_is_closed_and_as_large_as_its_areas_say(name, kind):
    keyboard = keyboard_of(name)
    plate, thick = keyboard.plate, 5.0
    solid = solid_of(plate_file(keyboard, kind, PlateOptions(thickness=thick)), kind)
    assert solid.is_watertight and solid.is_winding_consistent and solid.body_count == 1
    around, (gone, _) = outline(plate), through(plate)
    clipped = [key for key in plate.keys if not is_pressed_by_knob(plate, key)]
    clips = [in_field(key, 0, 0, 5, 17) for key in clipped]
    behind = union_all([*gone, *clips, *through(plate, more=1.0)[1]])
    volume = (around.area - union_all(gone).area) * 1.5
    volume += around.difference(behind).area * (thick - 1.5)
    assert solid.volume == pytest.approx(volume, rel=2e-4)
    left, top, right, bottom = around.bounds
    assert solid.bounds.ravel() == pytest.approx([left, -bottom, 0, right, -top, thick], abs=0.01)


@pytest.mark.parametrize(("option", "thick"), [(None, 3.0), (2.0, 2.0)])
def test_it_is_as_thick_as_the_file_says_or_the_option(option, thick):
    """The recesses go round the file's cut-outs: two of 5 mm beyond their height."""
    said = "  thickness 3 mm\n  cut-out 13.8 x 13.5 mm\n  outline margin 10 mm\n"
    keyboard = read("x", f"plate\n  line A B\n  line C D\n{said}")
    plate = keyboard.plate
    solid = solid_of(plate_file(keyboard, ".stl", PlateOptions(thickness=option)), ".stl")
    assert solid.is_watertight and solid.bounds[1][2] - solid.bounds[0][2] == pytest.approx(thick)
    gone = switches(plate, 13.8, 13.5)
    behind = union_all([*gone, *(in_field(key, 0, 0, 5, 16.5) for key in plate.keys)])
    around = outline(plate, 10)
    volume = (around.area - union_all(gone).area) * 1.5
    volume += around.difference(behind).area * (thick - 1.5)
    assert solid.volume == pytest.approx(volume, rel=2e-4)


def test_a_thin_plate_has_no_recesses():
    keyboard = keyboard_of("heron-12")
    solid = solid_of(plate_file(keyboard, ".stl", PlateOptions(thickness=1.5)), ".stl")
    gone, _ = through(keyboard.plate)
    area = outline(keyboard.plate).area - union_all(gone).area
    assert solid.volume == pytest.approx(area * 1.5, rel=2e-4)
