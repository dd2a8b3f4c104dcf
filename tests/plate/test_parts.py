"""A plate in parts: each has room on the bed, and no opening is cut."""

from __future__ import annotations

import io

import pytest
import trimesh
from shapely.geometry import LineString, Polygon

from matrixgen.jobs.plate import PlateOptions, plate_file, seams_for
from matrixgen.plate.openings import Bar
from matrixgen.plate.shape import plate_shape
from tests.plate.plates import holes, keyboard_of, read

BEDS = [
    ("goosander-104", (235, 235)),
    ("goosander-104", (180, 180)),
    ("goosander-104", (140, 250)),
    ("avocet-42", (180, 180)),
    ("avocet-42", (150, 300)),
    ("curlew-72", (235, 90)),
]


@pytest.mark.parametrize(("name", "bed"), BEDS)
def test_each_part_is_closed_and_has_room_on_the_bed(name, bed):
    keyboard = keyboard_of(name)
    seams = seams_for(keyboard, bed)
    assert seams
    content = plate_file(keyboard, ".3mf", PlateOptions(seams=seams))
    scene = trimesh.load(io.BytesIO(content), file_type="3mf")
    parts = list(scene.geometry.values())
    assert len(parts) == len(seams) + 1
    for part in parts:
        assert part.is_watertight and part.body_count == 1
        wide, deep, high = part.extents
        assert high == pytest.approx(5)
        # the front of a part laps over the other by half a millimetre
        assert sorted((wide - 0.5, deep)) <= sorted(bed) or (
            wide - 0.5 <= bed[0] and deep <= bed[1]
        )
    whole = trimesh.load(
        io.BytesIO(plate_file(keyboard, ".stl", PlateOptions())), file_type="stl", force="mesh"
    )
    assert sum(part.volume for part in parts) == pytest.approx(whole.volume, rel=0.003)


@pytest.mark.parametrize(("name", "bed"), BEDS)
def test_a_seam_keeps_off_all_that_goes_through(name, bed):
    keyboard = keyboard_of(name)
    shape = plate_shape(keyboard.plate)
    bars = [Polygon(one.corners) for one in shape.openings if isinstance(one, Bar)]
    for seam in seams_for(keyboard, bed) or ():
        line = LineString(seam)
        assert line.is_simple
        assert min(line.distance(one) for one in bars + holes(keyboard.plate)) >= 1.75


def test_a_plate_of_many_metres_is_not_divided():
    keyboard = read("x", "plate\n  line A\n  cluster far at 900, 0\n    line B\n")
    assert seams_for(keyboard, (50, 50)) is None


def test_a_plate_that_has_room_is_not_divided():
    assert seams_for(keyboard_of("heron-12"), (235, 235)) == ()
