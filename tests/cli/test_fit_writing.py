"""What `fit --write` keeps to, on generated plates and every controller."""

from __future__ import annotations

import json
import re
from pathlib import Path
from random import Random

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.fit import search
from matrixgen.jobs.examine import examine
from matrixgen.model import matrix_of
from matrixgen.model.meaning import meaning_of
from matrixgen.source.tree_reader import comments_of
from tests.amounts import amount

FILES = amount("MATRIXGEN_FIT_FILES", suite=7, long=500)
"""Generated files: one a controller, at least."""

MOST_KEYS = 120
NUMBERED = re.compile(r"([rc])([0-9]+)")


@pytest.fixture(autouse=True)
def short_walks(monkeypatch):
    """What holds after short walks holds after long ones, which take a second each."""
    monkeypatch.setattr(search, "STAGES", (search.Stage(2, 500, 4.0),))
    monkeypatch.setattr(search, "MOST_TIMES", 1.0)


def generated(seed: int) -> str:
    """A file of 1 to 120 keys in lines, gaps and clusters, with comments anywhere."""
    chance = Random(seed)
    keys = [
        f"A.{number}" for number in range(chance.choice((1, 2, 5, chance.randint(1, MOST_KEYS))))
    ]
    cluster = keys[:0] if chance.random() < 0.5 else keys[: len(keys) // 5]
    lines = ["# a plate", "plate  # of steel", *_lines(chance, keys[len(cluster) :])]
    if cluster:
        lines += [
            f"  cluster thumb at 30, {chance.randint(0, 9)} turned {chance.choice((0, 15, -30))}"
        ]
        lines += [f"  {line}" for line in _lines(chance, cluster)]
    if chance.random() < 0.5:
        lines += ["", "layer base", f"  {keys[-1]} = Esc  # the last one"]
    if chance.random() < 0.5:
        drive = chance.choice(("rows, sense columns", "columns, sense rows"))
        lines += ["", "wiring  # to come", f"  drive {drive}  # so", "  # and now the wires"]
    name = f'keyboard "K{seed}"  # mine\n  debounce 7 ms\n\n' if chance.random() < 0.5 else ""
    return f"{name}{chr(10).join(lines)}\n"


def _lines(chance: Random, keys: list[str]) -> list[str]:
    found, left = [], list(keys)
    while left:
        some = [left.pop(0) for _ in range(min(len(left), chance.randint(1, 21)))]
        gaps = (f"~{chance.choice((0.25, 1, 2.5))} " if chance.random() < 0.1 else "" for _ in some)
        widths = (f":{chance.choice((1.25, 2))}" if chance.random() < 0.1 else "" for _ in some)
        cells = (f"{g}{k}{w}" for g, k, w in zip(gaps, some, widths, strict=True))
        found.append(f"  line {' '.join(cells)}")
    return found


def dominated(one, other) -> bool:
    """Whether another matrix of the table needs no more of anything and less of something."""
    own, others = ([m[n] for n in ("pins", "jumpers", "wire_cm")] for m in (one, other))
    return own != others and all(a >= b for a, b in zip(own, others, strict=True))


def table_of(program, name):
    report = json.loads(program("fit", name, "--json").out)
    for matrix in report["matrices"]:
        matrix["wire_cm"] = round(matrix["wire_m"], 2)
    return report


def parts(name: str):
    """What a file says beside its wiring and controller."""
    said = meaning_of(examine(name).design)["keyboard"]
    comments = sorted(comments_of(Path(name).read_text("utf-8")))
    return said["plate"], said["layers"], said["actions"], comments


@pytest.mark.parametrize("seed", range(FILES))
def test_what_is_written_is_the_best_of_the_table_sound_and_final(program, seed):
    controller = builtin_names()[seed % len(builtin_names())]
    name = program.write("pad.keys", generated(seed))
    table, before = table_of(program, name), parts(name)
    errors = {found.slug for found in examine(name).errors}
    (row,) = (one for one in table["controllers"] if one["controller"] == controller)
    ran = program("fit", name, "--controller", controller, "--write")
    if row["verdict"] == "too few pins":
        assert (ran.status, ran.out) == (2, "")
        assert parts(name) == before
        return
    assert (ran.status, ran.err) == (0, ""), ran.out
    examined = examine(name)
    assert {found.slug for found in examined.errors} == errors
    assert parts(name) == before
    design, (mounted,) = examined.design, examined.mounted
    matrix = matrix_of(design.keyboard)
    size = [len(design.keyboard.wiring.of_axis(axis)) for axis in ("row", "column")]
    assert size == [row["rows"], row["columns"]]
    assert len(matrix.contacts) == len(design.keyboard.keys)
    (chosen,) = (m for m in table["matrices"] if [m["rows"], m["columns"]] == size)
    fitting = [m for m in table["matrices"] if m["pins"] <= row["usable"]]
    assert not any(dominated(chosen, other) for other in fitting)
    assert (chosen["worse_than"] is None) == (
        not any(dominated(chosen, other) for other in table["matrices"])
    )
    _has_cheap_pins(mounted)
    _has_names_without_holes(design)
    again = program("fit", name, "--write", "--replace")
    assert again.out.endswith("the file already has this wiring\n"), again.out


def _has_cheap_pins(mounted) -> None:
    taken = {wired.pin.name for wired in mounted.wired}
    dearest = max(wired.pin.cost for wired in mounted.wired)
    assert all(pin.cost >= dearest for pin in mounted.profile.usable_pins if pin.name not in taken)


def _has_names_without_holes(design) -> None:
    for axis, letter in (("row", "r"), ("column", "c")):
        names = [line.name.text for line in design.keyboard.wiring.of_axis(axis)]
        assert sorted(names) == sorted(f"{letter}{number}" for number in range(len(names)))


@pytest.mark.parametrize("seed", range(FILES // 2))
def test_a_wiring_that_is_replaced_has_no_holes_in_its_names_and_is_final(program, seed):
    chance = Random(seed)
    controller = chance.choice([n for n in builtin_names() if len(builtin_profile(n).pins) > 40])
    name = program.write("pad.keys", generated(seed))
    if program("fit", name, "--controller", controller, "--write").status:
        return
    before = parts(name)
    keys = len(examine(name).design.keyboard.keys)
    for rows in (chance.randint(1, min(keys, 9)), chance.randint(1, min(keys, 9))):
        asked = ("--rows", str(rows), "--write", "--replace")
        ran = program("fit", name, *asked)
        if ran.status:
            assert "need" in ran.err or "more than a file may have" in ran.err
            continue
        _has_names_without_holes(examine(name).design)
        assert examine(name).is_sound
        assert parts(name) == before
        assert program("fit", name, *asked).out.endswith("the file already has this wiring\n")
