"""Slow files: matrices, and runs of keys."""

from __future__ import annotations

from random import Random

from matrixgen.source.limits import LIMITS
from tests.hostile.slow_files.shapes import (
    WIRES,
    again,
    count_of,
    filled,
    keys_of,
    letters_of,
    plate_of,
    rows_of,
    shape,
    whole,
)


@shape
def a_diode_at_each_key(size: float) -> str:
    return whole(size)


@shape
def no_diodes(size: float) -> str:
    last = count_of(size) - 1
    return whole(size, f"without diode k0 to k{last}")


@shape
def every_other_diode(size: float) -> str:
    keys = " ".join(keys_of(count_of(size))[::2])
    return whole(size, "diodes 1N4148, band toward columns", f"without diode {keys}")


def _chance_matrix(size: float, *, without: float) -> str:
    """Keys at crossings of chance, a few of which are left out."""
    chance = Random("crossings")
    keys = keys_of(count_of(size, LIMITS.keys * 3 // 4))
    places = chance.sample([(r, c) for r in range(WIRES) for c in range(WIRES)], len(keys))
    at = dict(zip(keys, places, strict=True))
    wires = {
        f"{axis} {axis}{n}": [key for key in keys if at[key][side] == n]
        for side, axis in enumerate(("row", "column"))
        for n in range(WIRES)
    }
    bare = chance.sample(keys, int(len(keys) * without))
    said = [] if without == 1 else ["  diodes 1N4148, band toward columns"]
    said += [f"  without diode {' '.join(bare)}"] if bare else []
    lines = [f"  {wire}  {' '.join(found)}" for wire, found in wires.items() if found]
    modifiers = ("Ctrl", "Shift", "Alt", "GUI", "hold layer up", "tap A, hold Shift")
    cells = [f"  {key} = {chance.choice(modifiers)}" for key in keys]
    up = [f"  {key} = B" for key in keys[::3]]
    blocks = ["wiring", *said, *lines, "", "layer base", *cells, "", "layer up", *up, ""]
    return "\n".join([*plate_of(rows_of(keys)), *blocks])


@shape
def crossings_of_chance(size: float) -> str:
    return _chance_matrix(size, without=0)


@shape
def crossings_of_chance_without_diodes(size: float) -> str:
    return _chance_matrix(size, without=1)


@shape
def crossings_of_chance_without_some_diodes(size: float) -> str:
    return _chance_matrix(size, without=0.3)


def _runs(statement: str, size: float, *, there_and_back: bool = True) -> str:
    keys = keys_of(count_of(size))
    run = f"k0 to k{len(keys) - 1}"
    runs = f"{run} k{len(keys) - 1} to k0" if there_and_back else run
    block = 'keyboard "Pad"' if statement.split()[0] in ("allow", "boot-loader") else "wiring"
    plate = "\n".join(plate_of(rows_of(keys)))
    return filled(f"{plate}\n{block}\n  {statement} {runs}", again(f"    and {runs}"), size)


@shape
def runs_of_all_keys_on_a_wire(size: float) -> str:
    return _runs("row r0", size)


@shape
def runs_of_all_keys_without_a_diode(size: float) -> str:
    return _runs("without diode", size)


@shape
def runs_of_all_keys_reversed(size: float) -> str:
    return _runs("reversed", size)


@shape
def runs_of_all_keys_for_the_boot_loader(size: float) -> str:
    return _runs("boot-loader hold", size)


@shape
def runs_of_all_keys_allowed(size: float) -> str:
    return _runs("allow keys-overlap", size)


@shape
def many_allow_of_all_keys(size: float) -> str:
    keys = keys_of(count_of(size))
    statement = f"  allow keys-overlap k0 to k{len(keys) - 1}"
    return filled("\n".join([*plate_of(rows_of(keys)), 'keyboard "Pad"']), again(statement), size)


@shape
def every_key_on_every_wire(size: float) -> str:
    keys = keys_of(count_of(size))
    run = f"k0 to k{len(keys) - 1}"
    wires = [f"  {axis} {axis}{n} {run}" for axis in ("row", "column") for n in range(WIRES)]
    return "\n".join([*plate_of(rows_of(keys)), "wiring", *wires, "", *letters_of(keys)])
