"""Every hop keeps off what it must not cross, is as short as it can be, and reaches its joints.

The reference is shapely, asked without the index and the clearances that the router works with; the
shortest ways are those of a graph of every corner and every joint, made here by brute force.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import dist, hypot
from random import Random

import networkx
import pytest
import shapely
from shapely import LineString, Point, Polygon, box

from matrixgen.model import Key, Keyboard
from matrixgen.routing import Back, Hop, back_of
from matrixgen.routing.wires import LEAD_MM
from tests.amounts import amount
from tests.examples.shipped import NAMES, example
from tests.routing.plates import random_keyboard
from tests.texts import keyboard_in

SEEDS = range(amount("MATRIXGEN_ROUTED", suite=2, long=60))
PITCH, CUT_OUT, POST, SCREW = 19.05, 14.0, 4.0, 6.0
GRAIN = 0.02


def bodies(back: Back) -> dict[str, Polygon]:
    """Each switch's body, from its key's place alone, by shapely's own rotation."""
    found = {}
    for one in back.switches:
        key = one.key
        upright = box(key.x, key.y, key.x + key.width, key.y + key.height).centroid
        turned = shapely.affinity.rotate(upright, key.turned, origin=(key.pivot_x, key.pivot_y))
        x, y = turned.x * PITCH, turned.y * PITCH
        square = box(x - CUT_OUT / 2, y - CUT_OUT / 2, x + CUT_OUT / 2, y + CUT_OUT / 2)
        found[key.name.text] = shapely.affinity.rotate(square, key.turned, origin=(x, y))
    return found


def cleared(keyboard: Keyboard) -> list[Polygon]:
    plate = keyboard.plate
    holes = [Point(h.x * PITCH, h.y * PITCH).buffer(SCREW / 2, quad_segs=64) for h in plate.holes]
    areas = [
        box(a.x * PITCH, a.y * PITCH, (a.x + a.width) * PITCH, (a.y + a.height) * PITCH)
        for a in plate.keep_clear
    ]
    return holes + areas + [one for key in plate.keys for one in housings(key)]


def housings(key: Key) -> Iterator[Polygon]:
    """Yield the cut-outs of a key's stabiliser, in the widths that these keyboards have."""
    units = max(key.width, key.height)
    if units < 2:
        return
    off = {6.25: 50.0}.get(units, 11.9)  # of 2 to 2.75 units, too
    assert units < 3 or units == 6.25
    x, y = ((key.x + key.width / 2) * PITCH, (key.y + key.height / 2) * PITCH)
    for middle in (x - off, x + off):
        upright = box(middle - 3.5, y - 6.6, middle + 3.5, y + 8.4)
        level = shapely.affinity.rotate(upright, -90 * (key.height > key.width), origin=(x, y))
        pivot = key.pivot_x * PITCH, key.pivot_y * PITCH
        yield shapely.affinity.rotate(level, key.turned, origin=pivot)


def in_the_way(keyboard: Keyboard, of_key: dict[str, Polygon], hop: Hop) -> list[Polygon]:
    """Return what a hop must not cross: other switches, its own posts, and what is kept clear."""
    own = {hop.start.key, hop.end.key}
    others = [body for key, body in of_key.items() if key not in own]
    posts = [of_key[key].centroid.buffer(POST / 2, quad_segs=64) for key in own]
    return [shape.buffer(-GRAIN) for shape in (*others, *posts, *cleared(keyboard))]


def hops(back: Back) -> list[Hop]:
    return [hop for run in back.runs for hop in run.hops]


@pytest.fixture(params=[*NAMES, *SEEDS], ids=str, scope="module")
def keyboard(request: pytest.FixtureRequest) -> Keyboard:
    if isinstance(request.param, str):
        return example(request.param).keyboard
    return random_keyboard(Random(request.param))


@pytest.fixture(scope="module")
def back(keyboard: Keyboard) -> Back:
    return back_of(keyboard)


def test_no_wire_crosses_a_switch_a_post_a_stabiliser_or_what_is_kept_clear(keyboard, back):
    of_key = bodies(back)
    for hop in hops(back):
        assert hop.route is not None
        way = LineString(hop.route)
        assert not any(way.intersects(one) for one in in_the_way(keyboard, of_key, hop)), hop


@pytest.mark.parametrize("most", [0, 500, 20_000])
def test_in_haste_routes_are_longer_and_cross_as_little_and_what_is_left_out_is_known(most):
    keyboard = random_keyboard(Random(7))
    patient, back = back_of(keyboard), back_of(keyboard, most)
    of_key = bodies(back)
    for hop, shortest in zip(hops(back), hops(patient), strict=True):
        assert hop.is_left_out == (hop.route is None)
        if hop.route:
            way = LineString(hop.route)
            assert not any(way.intersects(one) for one in in_the_way(keyboard, of_key, hop))
            assert hop.length_mm < 3 * shortest.length_mm + 5
    names = {run.line.name.text for run in back.left_out}
    wanted = {run.line.name.text for run in back.runs if any(h.is_left_out for h in run.hops)}
    assert names == wanted
    assert bool(names) == (most < 10_000)


def test_every_leg_has_just_its_two_connections(back):
    """The near leg: the switch and a wire; the far leg: the switch and its diode, or a wire."""
    joined = [joint.at for run in back.runs for joint in run.joints]
    for one in back.switches:
        if one.diode:
            assert one.diode.leg == one.far
            assert joined.count(one.far) == 0
            assert joined.count(one.diode.end) == 1
        else:
            assert joined.count(one.far) == 1
        assert joined.count(one.near) == 1


def test_a_run_goes_on_from_joint_to_joint_in_soldering_order(back):
    for run in back.runs:
        assert [joint.key for joint in run.joints] == [word.text for word in run.line.visits]
        for hop, start, end in zip(run.hops, run.joints, run.joints[1:], strict=False):
            assert (hop.start, hop.end) == (start, end)
            assert (hop.drawn[0], hop.drawn[-1]) == (start.at, end.at)


def test_lengths_are_sums_of_straight_pieces(back):
    for run in back.runs:
        pieces = [
            hypot(hop.drawn[n + 1][0] - hop.drawn[n][0], hop.drawn[n + 1][1] - hop.drawn[n][1])
            for hop in run.hops
            for n in range(len(hop.drawn) - 1)
        ]
        assert run.length_mm == pytest.approx(sum(pieces))


def test_a_lead_makes_a_hop_only_where_it_gets_so_far(back):
    """A lead of 25.4 mm (Vishay 81857) has 4 mm before its joint and needs 2 mm for the next."""
    with_diode = {one.key.name.text for one in back.switches if one.diode}
    for run in back.runs:
        for hop in run.hops:
            if run.line.axis != back.diode_axis:
                assert hop.made == "wire"
            else:
                gets_there = hop.start.key in with_diode and 4 + hop.length_mm + 2 <= LEAD_MM
                assert hop.made == ("lead" if gets_there else "jumper")


@pytest.mark.few(1)
@pytest.mark.parametrize("seed", range(2))
def test_ways_are_as_short_as_a_graph_of_all_corners_says(seed):
    """Each is at most the detour longer that keeping its distance from every corner costs."""
    keyboard = random_keyboard(Random(100 + seed))
    back = back_of(keyboard)
    bent = [hop for hop in hops(back) if len(hop.drawn) > 2]
    assert bent
    for hop in bent[:6]:
        shortest = by_brute_force(hop, in_the_way(keyboard, bodies(back), hop))
        assert shortest - 0.1 <= hop.length_mm <= shortest + 4.5 * (len(hop.drawn) - 2)


def by_brute_force(hop: Hop, obstacles: list[Polygon]) -> float:
    corners = [
        corner
        for shape in obstacles
        for corner in shape.buffer(0.1, join_style="mitre").simplify(0.05).exterior.coords[:-1]
    ]
    points = [hop.start.at, hop.end.at, *corners]
    inner = shapely.union_all([shape.buffer(-GRAIN) for shape in obstacles])
    shapely.prepare(inner)
    graph = networkx.Graph()
    graph.add_weighted_edges_from(
        (one, other, dist(points[one], points[other]))
        for one, other in combinations(range(len(points)), 2)
        if not inner.intersects(LineString([points[one], points[other]]))
    )
    return networkx.shortest_path_length(graph, 0, 1, "weight")


def test_diodes_go_where_their_leads_make_more_hops():
    lying = example("dunlin-48").keyboard
    assert back_of(lying).diode_axis == "row"
    text = "plate\n" + "".join(f"  line A{n} ~2 B{n} ~2 C{n}\n" for n in range(4))
    assert back_of(upright(text)).diode_axis == "column"


def upright(plate: str) -> Keyboard:
    wires = "wiring\n  diodes 1N4148, band toward columns\n"
    wires += "".join(f"  row r{n} A{n} B{n} C{n}\n" for n in range(4))
    wires += "".join(f"  column {c} {' '.join(f'{c}{n}' for n in range(4))}\n" for c in "ABC")
    return keyboard_in(plate + wires)


def test_without_diodes_rows_are_wires_from_key_to_key():
    text = "plate\n  line A B C\nwiring\n  without diode A B C\n  row r A B C\n"
    text += "  column a A\n  column b B\n  column c C\n"
    assert {hop.made for hop in hops(back_of(keyboard_in(text)))} == {"wire"}
