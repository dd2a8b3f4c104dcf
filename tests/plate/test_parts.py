"""A plate in parts: each has room on the bed, and no opening is cut."""

from __future__ import annotations

import io
from itertools import combinations

import pytest
import trimesh
from shapely.geometry import LineString, Polygon

from matrixgen.jobs.plate import PlateOptions, division_for, plate_file, why_undivided
from matrixgen.plate.division import WHOLE, Division, Undivided
from matrixgen.plate.openings import Bar, Circle
from matrixgen.plate.seams import NoLine, Room, seams_of
from matrixgen.plate.shape import plate_shape
from tests.plate.plates import holes, keyboard_of, read

DOWN = [
    ("goosander-104", (235, 235)),
    ("goosander-104", (180, 180)),
    ("goosander-104", (140, 250)),
    ("avocet-42", (180, 180)),
    ("avocet-42", (150, 200)),
    ("curlew-72", (235, 90)),
]
ACROSS = [
    ("goosander-104", (250, 100)),
    ("goosander-104", (120, 120)),
    ("avocet-42", (160, 80)),
    ("curlew-72", (200, 75)),
    ("curlew-72", (62, 190)),
]


BACK_MM, FRONT_MM, LEAST_WALL_MM = 1.0, 4.9, 0.44
"""Heights at which a part is looked at, and a wall that a nozzle of 0.4 mm can print."""


def division(name: str, bed: tuple[float, float]) -> Division:
    found = division_for(keyboard_of(name), bed)
    assert isinstance(found, Division)
    return found


@pytest.mark.few(2)
@pytest.mark.parametrize(("name", "bed"), DOWN + ACROSS)
def test_each_part_is_closed_and_has_room_on_the_bed(name, bed):
    keyboard, found = keyboard_of(name), division(name, bed)
    content = plate_file(keyboard, ".3mf", PlateOptions(division=found))
    scene = trimesh.load(io.BytesIO(content), file_type="3mf")
    parts = list(scene.geometry.values())
    assert len(parts) == sum(found.strips) > 1
    for part in parts:
        assert part.is_watertight and part.body_count == 1
        wide, deep, high = part.extents
        assert high == pytest.approx(5)
        assert (wide <= bed[0] and deep <= bed[1]) or (wide <= bed[1] and deep <= bed[0])
    whole = trimesh.load(
        io.BytesIO(plate_file(keyboard, ".stl", PlateOptions())), file_type="stl", force="mesh"
    )
    # what is lost is the room of 0.1 mm at each seam, half of it through openings
    lost = 0.1 * 5 * sum(LineString(seam).length for seam in found.seams)
    assert whole.volume - sum(part.volume for part in parts) == pytest.approx(lost, rel=0.25)
    boxes = [part.bounds for part in parts]
    assert all(_are_apart(one, other) for one, other in combinations(boxes, 2))
    for height in (BACK_MM, FRONT_MM):  # the seams leave no wall that is thinner
        thin = sum(_thinner_than(part, height, LEAST_WALL_MM) for part in parts)
        assert thin == pytest.approx(_thinner_than(whole, height, LEAST_WALL_MM), abs=0.1)


def _thinner_than(solid, height, wall):
    """Return how much of a solid's section is in walls that are thinner, in square millimetres."""
    drawn = solid.section(plane_origin=[0, 0, height], plane_normal=[0, 0, 1]).discrete
    section = Polygon()
    for ring in drawn:
        section = section.symmetric_difference(Polygon(ring[:, :2]).buffer(0))
    opened = section.buffer(-wall / 2, join_style="mitre").buffer(wall / 2, join_style="mitre")
    return section.difference(opened).area


def _are_apart(one, other):
    return bool((one[1][:2] < other[0][:2]).any() or (other[1][:2] < one[0][:2]).any())


@pytest.mark.few(3)
@pytest.mark.parametrize(("name", "bed"), DOWN + ACROSS)
def test_a_seam_keeps_off_all_that_goes_through(name, bed):
    keyboard, found = keyboard_of(name), division(name, bed)
    assert bool(found.across) == ((name, bed) in ACROSS)
    shape = plate_shape(keyboard.plate)
    bars = [Polygon(one.corners) for one in shape.openings if isinstance(one, Bar)]
    lines = [LineString(seam) for seam in found.across]
    for row, seams in enumerate(found.down):
        above = lines[row - 1] if row else None
        below = lines[row] if row < len(lines) else None
        lines_down = [_between(LineString(seam), above, below) for seam in seams]
        assert all(line.is_simple for line in lines_down)
        for line in lines_down:
            assert min(line.distance(one) for one in bars + holes(keyboard.plate)) >= 1.75
            for end in (above, below):  # it meets the other seam square, and runs along none
                assert end is None or end.buffer(3).intersection(line).length < 3.6
    for line in lines:
        assert line.is_simple
        assert min(line.distance(one) for one in bars + holes(keyboard.plate)) >= 1.75


def _between(line: LineString, above: LineString | None, below: LineString | None) -> LineString:
    """Return as much of a seam that goes down as there is between two that go across."""
    for end, is_above in ((above, True), (below, False)):
        if end is not None:
            far = -1e4 if is_above else 1e4
            xs = [x for x, _ in end.coords]
            beyond = Polygon([(xs[0], far), *end.coords, (xs[-1], far)])
            line = line.difference(beyond)
    assert line.geom_type == "LineString"
    return line


def test_a_plate_of_many_metres_is_not_divided():
    keyboard = read("x", "plate\n  line A\n  cluster far at 900, 0\n    line B\n")
    found = division_for(keyboard, (50, 50))
    assert found == Undivided("down", None)
    assert why_undivided(found) == "it would be in more than 20 parts"


def test_where_there_is_no_way_is_said():
    """Keys of half a unit lie so near to each other that no line goes between them."""
    keys = " ".join(f"K{number}:0.5" for number in range(12))
    text = f"plate\n  line {keys}\n"
    found = division_for(read("x", text), (50, 100))
    assert isinstance(found, Undivided) and found.way == "down"
    assert why_undivided(found).startswith("no line goes down it between its openings, ")


def test_a_plate_that_has_room_is_not_divided():
    assert division_for(keyboard_of("heron-12"), (235, 235)) == WHOLE


@pytest.mark.parametrize(("ends", "is_found"), [((), True), ((((-1, 30), (41, 30)),), False)])
def test_beside_a_seam_that_it_ends_at_a_seam_makes_no_step(ends, is_found):
    """Between two bars it comes down on a hole: to pass it, it would have to step just there."""
    sides = [
        Bar(kind="switch", key="A", middle=(x, 12.25), width=17.5, height=24.5, turned=0)
        for x in (8.75, 31.25)
    ]
    hole = Circle(kind="hole", number=0, middle=(20, 30), diameter=2.4)
    room = Room(bounds=(0, 0, 40, 30), openings=(*sides, hole), ends=ends)
    assert isinstance(seams_of(room, 26), NoLine) != is_found
