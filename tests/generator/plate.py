"""The block `plate`: lines, clusters turned and mirrored, holes and areas."""

from __future__ import annotations

from math import cos, sin, tau
from random import Random

from matrixgen.source.limits import LIMITS, Limits
from tests.generator.words import names, number

Rows = list[list[str]]


def divided(chance: Random, keys: list[str]) -> Rows:
    """Keys in lines of one to thirty."""
    rows, left = [], list(keys)
    longest = chance.choice((3, 6, 16, 30))
    while left:
        width = chance.randint(1, longest)
        rows.append(left[:width])
        left = left[width:]
    return rows


def plate(chance: Random, rows: Rows, most: Limits) -> tuple[list[str], Rows]:
    """The statements of a plate, and its keys line by line as the plate has them.

    `most` says how many holes and areas it may have.

    A mirrored cluster names as many keys a line as the other one, so that it takes the lines that
    fit.
    """
    main = rows[: max(1, len(rows) - chance.choice((0, 0, 1, 2)))]
    lines = [_line(chance, row) for row in main]
    rest = rows[len(main) :]
    called = iter(names(chance, 4, "part"))
    if rest:
        place = f"{number(_any(chance))}, {number(_any(chance))}"
        turn = chance.choice(("", f" turned {number(chance.choice((-15, 12.5, 360, -360, 0)))}"))
        first = next(called)
        lines.append(f"cluster {first} at {place}{turn}")
        other = rest[-1] if len(rest) > 1 and len(rest[0]) == len(rest[-1]) else None
        lines += [_line(chance, row) for row in (rest[:-1] if other else rest)]
        if other:
            about = number(_any(chance))
            lines += [f"cluster {next(called)} mirrors {first} about {about}"]
            lines.append(f"line {' '.join(other)}")
    lines = _with_places(chance, lines, most)
    if chance.random() < 0.3:
        keys = [key for row in rows for key in row]
        bare = chance.sample(keys, min(3, len(keys)))
        word = chance.choice(("stabiliser", "stabilizer"))
        lines.insert(chance.randint(0, len(lines)), f"{word} none {' '.join(bare)}")
    return lines, main + rest


def _any(chance: Random) -> float:
    return chance.choice((0, -1, 0.25, -0.75, 12.125, 30, 1000, -1000, chance.uniform(-9, 9)))


def _line(chance: Random, keys: list[str]) -> str:
    offsets = {
        "in": chance.choice((0.25, -0.25, 1, -2, 0, 3.5)),
        "down": chance.choice((0.5, -0.5, 0, -0.25, 2)),
    }
    shown = [word for word in offsets if chance.random() < 0.3]
    chance.shuffle(shown)
    words = [f"{word} {number(offsets[word])}" for word in shown]
    for key in keys:
        if chance.random() < 0.1:
            words.append(f"~{number(chance.choice((0.25, 0.5, 1, 2.125)))}")
        words.append(key + chance.choice(("", "", "", ":1.5", ":0.25", ":20", ":2x2", ":1x0.25")))
    if chance.random() < 0.05:
        words.append("~1")
    return f"line {' '.join(words)}"


def _corners(chance: Random) -> str:
    """The corners of an outline: each is seen from its middle, so that no sides cross."""
    most = chance.choice((3, 5, 8, LIMITS.outline_corners))
    x, y = chance.choice((0, 4.5, 900)), chance.choice((0, 1.25, -900))
    turns = [(n + chance.uniform(-0.3, 0.3)) * tau / most for n in range(most)]
    places = [(x + far * cos(a), y + far * sin(a)) for a in turns for far in [chance.uniform(3, 9)]]
    places = chance.choice((places, [(x, y), (x + LIMITS.least_side, y), (x + 3, y + 4)]))
    chance.choice((list, list.reverse))(places)
    return f"from {' to '.join(f'{number(a)}, {number(b)}' for a, b in places)}"


def _with_places(chance: Random, lines: list[str], most: Limits) -> list[str]:
    holes, areas = (chance.choice((0, 0, 1, most_of)) for most_of in (most.holes, most.areas))
    for is_hole in [True] * holes + [False] * areas:
        place = f"{number(_any(chance))}, {number(_any(chance))}"
        if is_hole:
            new = f"hole at {place}{chance.choice(('', '', ' for M2', ' for M2.5', ' for M3'))}"
        else:
            size = (number(chance.choice((LIMITS.least_area, 1, 2.5, 1000))) for _ in range(2))
            new = f"keep clear {place}, {', '.join(size)}"
        lines.insert(chance.randint(0, len(lines)), new)
    if chance.random() < 0.3:
        turned = chance.choice(("", " turned 90", f" turned {number(chance.uniform(-360, 360))}"))
        new = f"controller at {number(_any(chance))}, {number(_any(chance))}{turned}"
        lines.insert(chance.randint(0, len(lines)), new)
    if chance.random() < 0.3:
        most = LIMITS.outline_margin, LIMITS.outline_radius
        margin, radius = (number(chance.choice((0, 2.5, 6, one))) for one in most)
        ends = chance.choice((f"margin {margin} mm", _corners(chance)))
        new = f"outline {ends}" + chance.choice(("", f" radius {radius} mm"))
        lines.insert(chance.randint(0, len(lines)), new)
    if chance.random() < 0.3:
        wide, high = (
            number(chance.choice((13.8, LIMITS.least_cut_out, LIMITS.cut_out))) for _ in range(2)
        )
        lines.insert(chance.randint(0, len(lines)), f"cut-out {wide} x {high} mm")
    if chance.random() < 0.3:
        thick = number(chance.choice((1.5, LIMITS.least_thickness, LIMITS.thickness)))
        lines.insert(chance.randint(0, len(lines)), f"thickness {thick} mm")
    return lines
