"""Slow files: where keys, wires, holes and areas are."""

from __future__ import annotations

from random import Random

from matrixgen.source.limits import LIMITS
from tests.hostile.slow_files.shapes import (
    PADDED,
    WIRES,
    count_of,
    filled,
    keys_of,
    letters_of,
    matrix_of,
    plate_of,
    rows_of,
    shape,
)


@shape
def all_keys_at_one_place(size: float) -> str:
    keys = keys_of(count_of(size))
    clusters = [line for k in keys for line in (f"  cluster c{k} at 1, 1", f"    line {k}")]
    return "\n".join(["plate", *clusters, "", *matrix_of(rows_of(keys)), *letters_of(keys)])


@shape
def large_keys_over_each_other(size: float) -> str:
    keys = keys_of(count_of(size))
    sized = [f"{key}:20x20" if n % 2 else f"{key}:0.25" for n, key in enumerate(keys)]
    return "\n".join([*plate_of(rows_of(sized)), *letters_of(keys)])


@shape
def turned_clusters_over_each_other(size: float) -> str:
    keys = keys_of(count_of(size))
    lines = [
        line
        for n, key in enumerate(keys)
        for line in (
            f"  cluster c{n} at {n % 7}.3, {n % 5}.7 turned {n % 90}.5",
            f"    line {key}:2",
        )
    ]
    return "\n".join(["plate", *lines, "", *matrix_of(rows_of(keys)), *letters_of(keys)])


@shape
def mirrors_of_mirrors(size: float) -> str:
    keys = keys_of(count_of(size))
    lines = ["  cluster c0 at 0, 0 turned 7", f"    line {keys[0]}"]
    for n, key in enumerate(keys[1:], 1):
        lines += [f"  cluster c{n} mirrors c{n - 1} about {n}.25", f"    line {key}"]
    return "\n".join(["plate", *lines, "", *letters_of(keys)])


@shape
def fenced_wires(size: float) -> str:
    keys = keys_of(count_of(size))
    rows = rows_of(keys)
    most = count_of(size, LIMITS.holes)
    holes = [f"  hole at {n % 31 + 1}, {n // 31 + 1}" for n in range(most)]
    areas = [
        f"  keep clear {n % 32 + 0.95}, {n // 32 * 4 + 0.05}, 0.06, 3.9"
        for n in range(count_of(size, LIMITS.areas))
    ]
    plate = plate_of(rows)
    return "\n".join([*plate[:-1], *holes, *areas, "", *matrix_of(rows), *letters_of(keys)])


@shape
def long_wires_round_obstacles(size: float) -> str:
    """Wires that go to and fro over the whole plate, between holes and areas of chance."""
    chance = Random("wires")
    keys = keys_of(count_of(size))
    shuffled = chance.sample(keys, len(keys))
    places = [
        f"  hole at {chance.randrange(1, 32)}, {chance.randrange(1, 32)}"
        for _ in range(count_of(size, LIMITS.holes))
    ]
    places += [
        f"  keep clear {chance.randrange(32) + 0.93}, {chance.randrange(31)}, 0.05, 1"
        for _ in range(count_of(size, LIMITS.areas))
    ]
    plate = plate_of(rows_of(keys))
    return "\n".join([*plate[:-1], *places, "", *matrix_of(rows_of(shuffled)), *letters_of(keys)])


@shape
def distant_keys(size: float) -> str:
    """A cluster for each key, as far from each other as a plate goes, and fences between."""
    keys = keys_of(count_of(size))
    lines = [
        line
        for n, key in enumerate(keys)
        for line in (
            f"  cluster c{n} at {n * 41 % 900}, {n * 67 % 900} turned {n % 7}",
            f"    line {key}",
        )
    ]
    places = [f"  hole at {n * 4}.5, {n * 3}" for n in range(count_of(size, LIMITS.holes))]
    places += [
        f"  keep clear {n * 4}, {n * 7 % 900}, 300, 0.05"
        for n in range(count_of(size, LIMITS.areas))
    ]
    wiring = matrix_of(rows_of(keys))
    return "\n".join(["plate", *lines, *places, "", *wiring, *letters_of(keys)])


@shape
def too_many_keys(size: float) -> str:
    lines = (f"  line {' '.join(keys_of(40, f'k{n}x'))}" for n in range(10**6))
    return filled("plate", lines, size)


@shape
def everything_wrong(size: float) -> str:
    """A plate of all keys over each other, unknown names, double crossings, dead layers."""
    keys = keys_of(count_of(size), "n" * (PADDED - 8))
    rows = rows_of(keys, 16)
    plate = [f"  line {' '.join(f'{key}:0.25x3' for key in row)}" for row in rows]
    plate += [f"  hole at {n % 8}, {n % 60}" for n in range(LIMITS.holes)]
    plate += [f"  keep clear {n % 4}, {n % 60}, 3, 3" for n in range(LIMITS.areas)]
    wires = [
        f"  {axis} {axis}{n} on PX{n} {' '.join(keys[n::16])} nnnnx{n}"
        for axis in ("row", "column")
        for n in range(WIRES)
    ]
    cells = (
        line
        for n in range(LIMITS.layers)
        for line in (f"layer l{n}", *(f"  {key} = Bakspace{n}" for key in keys[n::4]))
    )
    head = [
        'keyboard "Pad"',
        "  controller stick-32u4",
        f"  allow unreachable-layer {keys[0]} to {keys[-1]}",
        "",
        "plate",
        *plate,
        "",
        "wiring",
        "  diodes 1N4148, band toward rows",
        "  drive columns, sense rows",
        f"  without diode {keys[1]} to {keys[-1]}",
        *wires,
        "",
    ]
    return filled("\n".join(head), cells, size)
