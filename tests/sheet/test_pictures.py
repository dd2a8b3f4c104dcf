"""The pictures of a plate, read back from the SVG that a maker gets."""

from __future__ import annotations

from itertools import pairwise
from math import cos, dist, radians, sin

import pytest
import shapely
from shapely import LineString, Point, Polygon, box

from matrixgen.emit.sheet.ink import DASHES, INKS, inks
from matrixgen.emit.wire_colours import COLOURS
from matrixgen.source.limits import LIMITS
from tests.examples.shipped import FOLDER, NAMES, example
from tests.plate.plates import is_pressed_by_knob
from tests.sheet.pictures import drawn, middle, of_class, points, sheet

PITCH = 19.05
GOLDEN = (("heron-12", "back.svg"), ("knot-21", "front-base.svg"))
CLOSE = 0.011
"""Figures in a picture have two decimals."""


@pytest.fixture(params=NAMES)
def name(request):
    return request.param


def test_the_back_is_the_front_under_x_to_minus_x_key_by_key(name):
    found = drawn(name)
    front = {g.attrib["data-key"]: g for g in of_class(found["front-base.svg"], "key")}
    back = {g.attrib["data-key"]: g for g in of_class(found["back.svg"], "switch")}
    assert list(front) == list(back)
    for key, group in front.items():
        x, y = middle(points(of_class(group, "cap")[0]))
        behind = middle(points(of_class(back[key], "body")[0]))
        assert behind == pytest.approx((-x, y), abs=CLOSE)


def test_keys_are_turned_as_a_general_geometry_library_turns_them(name):
    for group, key in zip(
        of_class(drawn(name)["front-base.svg"], "cap"), example(name).keyboard.keys, strict=True
    ):
        upright = box(key.x, key.y, key.x + key.width, key.y + key.height)
        turned = shapely.affinity.rotate(upright, key.turned, origin=(key.pivot_x, key.pivot_y))
        wanted = shapely.affinity.scale(turned, PITCH, PITCH, origin=(0, 0))
        assert Polygon(points(group)).hausdorff_distance(wanted) < CLOSE


def test_a_turned_key_s_words_are_turned_with_it_about_its_middle():
    (picture,) = (one for ending, one in drawn("avocet-42").items() if ending == "front-base.svg")
    turned = {key.name.text: key.turned for key in example("avocet-42").keyboard.keys}
    for group in of_class(picture, "key"):
        angle = turned[group.attrib["data-key"]]
        transform = group[1].get("transform", "")
        assert transform.startswith(f"rotate({angle:g} ") if angle else transform == ""


def test_every_wire_is_drawn_from_its_first_key_to_its_last_without_a_gap(name):
    shown = sheet(name)
    groups = of_class(drawn(name)["back.svg"], "wire")
    assert [g.attrib["data-wire"] for g in groups] == [wire.ink.wire for wire in shown.back.wires]
    for group, wire in zip(groups, shown.back.wires, strict=True):
        ways = ways_of(group)
        starts = [way[0] for way in ways] + ([ways[-1][-1]] if ways else list(wire.joints))
        for start, joint in zip(starts, wire.joints, strict=True):
            assert start == pytest.approx(joint, abs=CLOSE)
        for one, other in pairwise(ways):
            assert one[-1] == other[0]


def test_a_wire_to_a_controller_whose_place_is_known_is_drawn_from_its_pad_to_its_first_key():
    shown, picture = sheet("avocet-42"), drawn("avocet-42")["back.svg"]
    groups = of_class(picture, "controller-wire")
    assert [one.attrib["data-wire"] for one in groups] == [w.ink.wire for w in shown.back.wires]
    used = [one for one in of_class(picture, "used") if "cx" in one.attrib]
    pads = [Point(float(o.attrib["cx"]), float(o.attrib["cy"])) for o in used]
    for group, wire in zip(groups, shown.back.wires, strict=True):
        (way,) = ways_of(group)
        assert way[-1] == pytest.approx(wire.joints[0], abs=CLOSE)
        assert min(pad.distance(Point(way[0])) for pad in pads) < 0.02
    (outline,) = of_class(picture, "outline")
    assert all(Polygon(points(outline)).contains(pad) for pad in pads)


def ways_of(group) -> list[list[tuple[float, float]]]:
    """Return a wire's hops as they are drawn."""
    return [points(one) for one in of_class(group, "ink")]


def test_lengths_in_the_list_are_those_of_the_picture(name):
    """Summed from the picture by shapely: two decimals a point allow little."""
    shown = sheet(name)
    listed = {wire.ink.wire: wire.way_mm for wire in shown.wires}
    for group in of_class(drawn(name)["back.svg"], "wire"):
        ways = ways_of(group)
        total = sum(LineString(way).length for way in ways)
        assert total == pytest.approx(listed[group.attrib["data-wire"]], abs=0.02 * (len(ways) + 1))


def test_every_leg_is_drawn_on_its_switch(name):
    back = drawn(name)["back.svg"]
    bodies = {
        g.attrib["data-key"]: Polygon(points(of_class(g, "body")[0]))
        for g in of_class(back, "switch")
    }
    plate = example(name).keyboard.plate
    of_knobs = {key.name.text for key in plate.keys if is_pressed_by_knob(plate, key)}
    legs = of_class(back, "leg")
    assert len(legs) == 2 * len(bodies)
    for leg in legs:
        at, key = Point(float(leg.attrib["cx"]), float(leg.attrib["cy"])), leg.attrib["data-key"]
        assert bodies[key].contains(at) == (key not in of_knobs)


def test_legs_of_a_knob_s_switch_stand_beside_its_body_mirrored():
    """12.0 by 11.6 mm, legs 7.0 right of the shaft, 2.5 up and down: KiCad's footprint."""
    back = drawn("sanderling-25")["back.svg"]
    (fit,) = (one for one in of_class(back, "switch") if one.attrib["data-key"] == "Fit")
    body = points(of_class(fit, "body")[0])
    left, top, right, bottom = Polygon(body).bounds
    assert (right - left, bottom - top) == pytest.approx((12.0, 11.6), abs=2 * CLOSE)
    x, y = middle(body)
    legs = [
        (float(leg.attrib["cx"]) - x, float(leg.attrib["cy"]) - y)
        for leg in of_class(back, "leg")
        if leg.attrib["data-key"] == "Fit"
    ]
    assert sorted(legs) == [
        pytest.approx((-7.0, -2.5), abs=CLOSE),
        pytest.approx((-7.0, 2.5), abs=CLOSE),
    ]


def test_legs_are_those_of_the_common_switch_mirrored():
    """3.81 and 2.54 mm, 2.54 and 5.08 mm from the middle: common practice, no source."""
    back = drawn("heron-12")["back.svg"]
    post = of_class(back, "switch")[0]
    x, y = middle(points(of_class(post, "body")[0]))
    legs = [
        (float(leg.attrib["cx"]) - x, float(leg.attrib["cy"]) - y)
        for leg in of_class(back, "leg")
        if leg.attrib["data-key"] == post.attrib["data-key"]
    ]
    assert legs == [
        pytest.approx((3.81, -2.54), abs=CLOSE),
        pytest.approx((-2.54, -5.08), abs=CLOSE),
    ]


def test_bands_point_where_the_current_leaves(name):
    """The band is at the end that is nearer to the line that is pulled low, by the diode rule."""
    shown = sheet(name)
    wiring = shown.keyboard.wiring
    exceptions = {word.text for word in wiring.reversed}
    for switch in shown.back.switches:
        if not switch.diode:
            continue
        toward = wiring.diodes.band_toward
        if switch.key in exceptions:
            toward = "row" if toward == "column" else "column"
        band = middle([tuple(map(float, p.split(","))) for p in switch.diode.band.split()])
        leg, end = (tuple(map(float, p.split(","))) for p in switch.diode.lead.split())
        assert (dist(band, end) < dist(band, leg)) == (toward == shown.diode_axis)


def test_wires_are_told_apart_by_dash_and_name_alone(name):
    """As for somebody who sees no colours at all, over rows and columns together."""
    drawn_as = inks(example(name).keyboard.wiring).values()
    assert len({one.dash for one in drawn_as}) == len(drawn_as)
    assert len({one.wire for one in drawn_as}) == len(drawn_as)


def test_there_is_a_dash_for_each_wire_of_a_matrix_and_an_ink_for_each_colour():
    assert len(DASHES) == 2 * LIMITS.lines_per_axis
    assert set(INKS) == set(COLOURS)


def test_no_dash_is_another_one_looked_at_from_elsewhere_or_from_its_other_end():
    assert len({least_view(dash.split()) for dash in DASHES}) == len(DASHES)


def least_view(lengths: list[str]) -> tuple[str, ...]:
    """Return the least of all lists of strokes and gaps that a dash can be read as."""
    ways = (lengths, [*lengths[-2::-1], *lengths[-1:]])
    return min(tuple(way[n:] + way[:n]) for way in ways for n in range(0, len(way) + 1, 2))


def test_the_ruler_is_in_millimetres_of_the_plate():
    front = drawn("godwit-46")["front-base.svg"]
    (ruler,) = of_class(front, "ruler")
    labels = {text.text.split()[0]: float(text.attrib["x"]) for text in ruler if text.text}
    left = min(x for cap in of_class(front, "cap") for x, _ in points(cap))
    assert labels["50"] - labels["0"] == pytest.approx(50)
    assert labels["0"] == pytest.approx(left)


@pytest.mark.parametrize(("board", "ending"), GOLDEN, ids=lambda one: one)
def test_the_pictures_of_the_readmes_are_what_is_drawn_today(board, ending, request):
    from matrixgen.jobs.sheet import pictures

    path = FOLDER / board / f"{board}-{ending}"
    content = pictures(sheet(board))[ending]
    if request.config.getoption("--refresh"):
        path.write_bytes(content)
    assert path.read_bytes() == content


@pytest.mark.few(5)
def test_the_same_file_gives_the_same_bytes(name):
    from matrixgen.jobs.sheet import bench_sheet

    shipped = example(name)
    source = type("Source", (), {"path": str(shipped.path)})()
    assert bench_sheet(shipped.mounted, source) == bench_sheet(shipped.mounted, source)


@pytest.mark.parametrize("degrees", [15, -30, 90])
def test_a_point_is_turned_clockwise_where_y_grows_down(degrees):
    from matrixgen.model.geometry import turned_about

    angle = radians(degrees)
    assert turned_about((1, 0), (0, 0), degrees) == pytest.approx((cos(angle), sin(angle)))
