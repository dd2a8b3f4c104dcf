"""An outline with corners of its own: what counts as another one, and by how much it differs."""

from __future__ import annotations

import pytest

from matrixgen.merge import merge
from tests.compare.truth import compare_texts, lines_of

ELBOW = """\
plate
  line {offset}A B C
  line {indent}D
  hole at {hole}
  outline from {corners} radius {radius} mm
"""
CORNERS = [(-0.4, -0.4), (3.4, -0.4), (3.4, 1.4), (1.4, 1.4), (1.4, 2.4), (-0.4, 2.4)]
MARGIN = "plate\n  line A B C\n  line D\n  hole at 1, 1\n  outline margin 6 mm radius 3 mm\n"


def corners_of(right=0.0, down=0.0, changed=None):
    found = [(x + right, y + down) for x, y in CORNERS]
    found = [changed[n] if changed and n in changed else at for n, at in enumerate(found)]
    return [at for at in found if at]


def elbow(right=0.0, down=0.0, corners=None, radius=3.0):
    return ELBOW.format(
        offset=f"in {right:.7g} down {down:.7g} " if right or down else "",
        indent=f"in {right:.7g} " if right else "",
        hole=f"{1 + right:.7g}, {1 + down:.7g}",
        corners=" to ".join(f"{x:.7g}, {y:.7g}" for x, y in corners or corners_of(right, down)),
        radius=radius,
    )


@pytest.mark.parametrize("shift", [(1, 0), (-0.25, 2.5), (0.1234, -3.5)])
def test_a_plate_that_moved_as_a_whole_is_the_same_plate(shift):
    found = compare_texts(elbow(), elbow(*shift))
    assert found.kind == "cosmetic" and [one.slug for one in found.changes] == ["plate-shifted"]


@pytest.mark.parametrize("shift", [(1, 0), (-0.25, 2.5)])
def test_facts_say_the_same_of_a_plate_that_moved_as_a_whole(shift):
    assert lines_of(elbow()) == lines_of(elbow(*shift))


@pytest.mark.parametrize(
    "corners", [CORNERS[::-1], CORNERS[2:] + CORNERS[:2], [*CORNERS[:1], (1.5, -0.4), *CORNERS[1:]]]
)
def test_the_same_outline_may_be_told_in_many_ways(corners):
    assert compare_texts(elbow(), elbow(corners=corners)).kind == "cosmetic"
    assert lines_of(elbow()) == lines_of(elbow(corners=corners))


@pytest.mark.parametrize(
    ("new", "much"),
    [
        (elbow(corners=corners_of(changed={5: (-0.4, 2.9)})), "a corner moved by 9.525 mm"),
        (
            elbow(corners=corners_of(changed={5: (-0.4, 2.9), 4: (1.4, 2.5)})),
            "a corner moved by 9.525 mm at most",
        ),
        (
            elbow(corners=corners_of(changed={3: None, 4: None, 5: (-0.4, 1.9)})),
            "4 corners instead of 6, 9.525 mm lower",
        ),
        (elbow(corners=corners_of(changed={3: None})), "5 corners instead of 6"),
        (elbow(radius=4), "radius 4 mm"),
        (MARGIN, "margin 6 mm, radius 3 mm: 3.24 mm narrower, 3.24 mm lower"),
        (elbow(corners=corners_of(changed={5: (-0.5, 2.4)})), "a corner moved by 1.905 mm"),
        (elbow(corners=corners_of(1, 0)), "a corner moved by 19.05 mm at most"),
    ],
)
def test_another_outline_is_another_plate_and_it_is_said_by_how_much(new, much):
    for old, after in ((elbow(), new), (new, elbow())):
        found = compare_texts(old, after)
        assert found.kind == "solder" and [one.slug for one in found.changes] == ["outline-changed"]
        assert set(lines_of(old)) != set(lines_of(after))
        assert [one.rank for one in found.steps] == ["plate"]
    assert compare_texts(elbow(), new).changes[0].text.endswith(much)


def test_a_plate_that_moved_with_another_radius_is_cut_again():
    found = compare_texts(elbow(), elbow(1, 1, radius=5))
    assert [one.slug for one in found.changes] == ["outline-changed", "plate-shifted"]


def test_an_outline_that_stays_while_all_else_moves_is_no_plate_that_moved():
    assert compare_texts(elbow(), elbow(1, 0, corners=CORNERS)).kind == "solder"


def test_a_merge_takes_the_corners_of_one_side_and_the_radius_of_the_other():
    other = corners_of(changed={5: (-0.4, 2.9)})
    found = merge(elbow(), elbow(corners=other), elbow(radius=5))
    assert found.text == elbow(corners=other, radius=5)


def test_a_merge_never_has_a_margin_and_corners():
    other = MARGIN.replace("6 mm", "8 mm")
    found = merge(MARGIN, elbow(), other)
    assert "<<<<<<<" in found.text
    for line in found.text.splitlines():
        assert not ("margin" in line and "from" in line)
