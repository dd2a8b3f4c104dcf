"""A keyboard with more keys than a byte has numbers, and everything that names keys in tables."""

from __future__ import annotations

from pathlib import Path

import pytest

from matrixgen.cli.main import main

ROWS, COLUMNS = 16, 17
PINS = [f"P{port}{bit}" for port in "ABCDF" for bit in range(8)]


def many_keys() -> str:
    names = [[f"K{row}.{column}" for column in range(COLUMNS)] for row in range(ROWS)]
    near, far, between = names[0][0], names[-1][-1], names[3][3]
    return "\n".join(
        [
            "keyboard",
            "  controller at90usb1286",
            "plate",
            *(f"  line {' '.join(row)}" for row in names),
            "wiring",
            "  drive columns, sense rows",
            "  diodes 1N4148, band toward columns",
            *(f"  row r{n} on {PINS[n]} {row[0]} to {row[-1]}" for n, row in enumerate(names)),
            *(
                f"  column c{n} on {PINS[ROWS + n]} {' '.join(row[n] for row in names)}"
                for n in range(COLUMNS)
            ),
            "layer base",
            *(f"  {name} = A" for row in names for name in row[2:]),
            *(f"  {row[1]} = first A, second B" for row in names),
            *(f"  {row[0]} = tap A, hold Ctrl, other hand" for row in names),
            f"  together {near} {far} = B",
            f'  together {near} {far} {between} = type "C"',
            "",
        ]
    ).replace("keyboard\n", 'keyboard "Many"\n  computer us\n')


@pytest.mark.few(1)
@pytest.mark.parametrize("compiler", ["gcc", "clang"])
def test_tables_of_sixteen_bit_keys_build(compiler, tmp_path: Path):
    file = tmp_path / "many.keys"
    file.write_text(many_keys())
    assert ROWS * COLUMNS > 255
    assert main(["build", "--compiler", compiler, "-o", str(tmp_path / "out"), str(file)]) == 0
