"""Slow files: controllers, and texts that do not end."""

from __future__ import annotations

from matrixgen.boards import builtin_names
from matrixgen.source.limits import LIMITS
from tests.hostile.slow_files.shapes import (
    WIRES,
    count_of,
    keys_of,
    letters_of,
    matrix_of,
    plate_of,
    rows_of,
    shape,
)


@shape
def every_controller(size: float) -> str:
    keys = keys_of(count_of(size))
    rows = rows_of(keys)
    said = f'keyboard "Pad"\n  controller {", ".join(builtin_names()[: LIMITS.controllers])}\n'
    return "\n".join(
        [said, *plate_of(rows), *matrix_of(rows, "without diode k0 to k3"), *letters_of(keys)]
    )


@shape
def one_controller_many_times(size: float) -> str:
    more = "\n".join([*plate_of([["A", "B"]]), *matrix_of([["A", "B"]])])
    names = ", ".join(["rp2040"] * int(size * 100_000))
    return f'keyboard "Pad"\n  controller {names}\n\n{more}'


@shape
def files_as_controllers(size: float) -> str:
    names = ", ".join(f'"c{n}.json"' for n in range(int(size * 60_000)))
    return f'keyboard "Pad"\n  controller {names}\n\n' + "\n".join(plate_of([["A", "B"]]))


@shape
def pins_without_an_end(size: float) -> str:
    pins = ", ".join(f"PB{n % 8}" for n in range(int(size * 3_000)))
    lines = [f"  row r{n} on {pins} A" for n in range(WIRES)]
    return "\n".join(
        ['keyboard "Pad"\n  controller atmega32u4\n', *plate_of([["A"]]), "wiring", *lines]
    )


@shape
def needs_without_an_end(size: float) -> str:
    needs = " and ".join(f"l{n % 30}" for n in range(int(size * 110_000)))
    return f"plate\n  line A\n\nlayer base\n  A = B\n\nlayer x while {needs} are on\n  A = 1\n"
