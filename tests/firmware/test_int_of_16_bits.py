"""No number is made in an AVR's `int` of 16 bits and then taken for a wider one.

`(uint32_t)~0u` is 0xFFFFFFFF on a computer and 0x0000FFFF on an AVR, and no compiler warns of it:
the cast says that it is meant. So Clang's own syntax tree for the AVR is searched for results of
arithmetic that is done in 16 bits, which a cast, written or implied, widens afterwards.
"""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from matrixgen.emit.bench_tree import bench_tree
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from tests.emulators.bench_on_chip import view_of
from tests.emulators.keyboards import SOURCE, rectangle
from tests.firmware.host_build import write_tree

Node = dict[str, Any]

BITS = {"short": 16, "int": 16, "long": 32, "long long": 64}
"""Of Clang's `-target avr`; what is narrower is never arithmetic's own type."""

GROWING = {"~", "-", "+", "*", "<<"}
"""Operators whose result depends on how many bits there are for it."""

SIZES = "tables/sizes.h"

TRANSPARENT = {"ParenExpr", "ConstantExpr"}


def bits_of(node: Node) -> int:
    """Return the size of an expression's integer type that arithmetic can have, or 0."""
    kind = node.get("type", {})
    words = kind.get("desugaredQualType", kind.get("qualType", "")).split()
    plain = " ".join(word for word in words if word not in ("const", "volatile", "unsigned"))
    return BITS.get(plain or "int", 0)


def within(node: Node) -> list[Node]:
    return [inner for inner in node.get("inner", ()) if "kind" in inner]


def is_widened(cast: Node) -> bool:
    """Whether a cast widens what was worked out in 16 bits."""
    (of,) = within(cast)
    while of["kind"] in TRANSPARENT:
        (of,) = within(of)
    return of.get("opcode") in GROWING and bits_of(of) == BITS["int"] < bits_of(cast)


def widened(node: Node, where: str = "") -> Iterator[str]:
    """Yield the function or variable around each such cast in a syntax tree."""
    if node["kind"] in ("FunctionDecl", "VarDecl") and not where:
        where = node["name"]
    if node.get("castKind") == "IntegralCast" and is_widened(node):
        yield where
    for inner in within(node):
        yield from widened(inner, where)


def findings(tree: Mapping[str, bytes], folder: Path) -> list[str]:
    """Return the places of all C files of a firmware tree for an AVR, `file: function`."""
    folders = sorted({f"-I{name.rpartition('/')[0] or '.'}" for name in tree})
    write_tree(tree, folder)
    call = ["clang", "-target", "avr", "-mmcu=atmega32u4", "-w", "-std=gnu11", "-ffreestanding"]
    call += [*folders, "-fsyntax-only", "-Xclang", "-ast-dump=json"]
    found = []
    for name in sorted(name for name in tree if name.endswith(".c")):
        done = subprocess.run([*call, name], cwd=folder, capture_output=True, check=True)
        found += [f"{name}: {where}" for where in widened(json.loads(done.stdout))]
    return found


def keyboard_tree() -> dict[str, bytes]:
    """Return a keyboard's C, with the sets of lines and layers as large as they can be."""
    mounted, _ = rectangle("atmega32u4", rows=["PB0"], columns=["PB1"], drive="row")
    tree = firmware_tree(firmware_view(mounted, SOURCE))
    sizes, sets = re.subn(r"uint8_t (line_set|layer_set);", r"uint32_t \1;", tree[SIZES].decode())
    assert sets == 2
    return tree | {SIZES: sizes.encode()}


def test_no_keyboard_widens_what_16_bits_were_enough_for(tmp_path) -> None:
    assert findings(keyboard_tree(), tmp_path) == []


@pytest.mark.parametrize("name", ["at90usb1286", "atmega32u4"])
def test_nor_does_the_bench_of_a_chip_with_few_pins_or_many(name, tmp_path) -> None:
    assert findings(bench_tree(view_of(name)), tmp_path) == []


@pytest.mark.parametrize(
    "line, found",
    [
        ("uint32_t f(void) { return (uint32_t)~0u; }", True),
        ("uint32_t f(void) { return ~0u; }", True),
        ("uint32_t f(uint32_t a) { return a & (~0u); }", True),
        ("uint32_t f(uint8_t a) { return (uint32_t)1 << a | 1u << a; }", True),
        ("int32_t f(int a) { return -a; }", True),
        ("uint32_t f(uint16_t a) { return a * a; }", True),
        ("static const uint32_t f = 200 * 100;", True),
        ("uint32_t f(void) { return ~(uint32_t)0; }", False),
        ("uint32_t f(uint8_t a) { return (uint32_t)1 << a; }", False),
        ("uint8_t f(uint8_t a) { return (uint8_t)~a; }", False),
        ("uint16_t f(uint16_t a) { return (uint16_t)(a * a); }", False),
        ("uint32_t f(uint16_t a) { return a; }", False),
    ],
)
def test_planted_lines_are_told_apart(line, found, tmp_path) -> None:
    planted = {"engine/planted.c": f"#include <stdint.h>\n{line}\n".encode()}
    assert findings(planted, tmp_path) == ["engine/planted.c: f"] * found
