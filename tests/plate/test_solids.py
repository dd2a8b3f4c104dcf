"""The plate as a solid, read by `trimesh`: closed, and as much of it as shapely's areas say."""

from __future__ import annotations

import io

import pytest
import trimesh
from shapely import union_all

from matrixgen.jobs.plate import PlateOptions, plate_file
from matrixgen.plate.stabilisers import stabilisers_of
from tests.plate.plates import NAMES, holes, in_field, keyboard_of, outline, switches


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


@pytest.mark.parametrize("kind", [".stl", ".3mf"])
@pytest.mark.parametrize("name", NAMES)
def test_it_is_closed_and_as_large_as_its_areas_say(name, kind):
    keyboard = keyboard_of(name)
    plate, thick = keyboard.plate, 5.0
    solid = solid_of(plate_file(keyboard, kind, PlateOptions(thickness=thick)), kind)
    assert solid.is_watertight and solid.is_winding_consistent and solid.body_count == 1
    around, (gone, _) = outline(plate), through(plate)
    clips = [in_field(key, 0, 0, 5, 17) for key in plate.keys]
    behind = union_all([*gone, *clips, *through(plate, more=1.0)[1]])
    volume = (around.area - union_all(gone).area) * 1.5
    volume += around.difference(behind).area * (thick - 1.5)
    assert solid.volume == pytest.approx(volume, rel=2e-4)
    left, top, right, bottom = around.bounds
    assert solid.bounds.ravel() == pytest.approx([left, -bottom, 0, right, -top, thick], abs=0.01)


def test_a_thin_plate_has_no_recesses():
    keyboard = keyboard_of("heron-12")
    solid = solid_of(plate_file(keyboard, ".stl", PlateOptions(thickness=1.5)), ".stl")
    gone, _ = through(keyboard.plate)
    area = outline(keyboard.plate).area - union_all(gone).area
    assert solid.volume == pytest.approx(area * 1.5, rel=2e-4)
