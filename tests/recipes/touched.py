"""Which files another one of a kind touches: those that know the smallest one that is there."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
CODE = ("matrixgen", "grammar", "boards/profile.schema.json", "templates/firmware/ports/README.md")

STATEMENT = re.compile(r"[\"'.`]maker\b|\bmaker\s*[:=]|^ +\| maker$", re.MULTILINE)
"""The statement `maker` in code, by its word, its rule, or its field: it has a text and no more."""

FAMILY = re.compile(r"(?<!= )[\"'`]rp2040[\"'`/]|\bfamilies\.rp2040\b")
"""A chip family by its name; after `=` it is the name of the record itself, or of a controller."""


def _files() -> list[Path]:
    found = [ROOT / name for name in CODE]
    return [
        path
        for place in found
        for path in (sorted(place.rglob("*")) if place.is_dir() else [place])
        if path.suffix in (".py", ".lark", ".md", ".json") and "__pycache__" not in path.parts
    ]


def _knowing(pattern: re.Pattern[str]) -> set[str]:
    return {
        path.relative_to(ROOT).as_posix()
        for path in _files()
        if pattern.search(path.read_text("utf-8"))
    }


def files_of_a_statement() -> tuple[set[str], set[str]]:
    """Return the files that are new with a statement, none, and those that it changes."""
    return set(), {name for name in _knowing(STATEMENT) if not name.startswith("matrixgen/emit/")}


def files_of_a_family() -> tuple[set[str], set[str]]:
    """Return the files that are new with a chip family, and those that it changes.

    New are a port's files, as many as the empty port has, with what starts the chip and links it
    (`Makefile.j2`, `link.ld`, `memory.ld.j2`, `start.c`), a record and a profile.
    """
    port = {f"ports/NAME/{path.name}" for path in (ROOT / TEMPLATE).iterdir()}
    start = {f"ports/NAME/{name}" for name in ("Makefile.j2", "link.ld", "memory.ld.j2", "start")}
    own = {"matrixgen/families/NAME.py", "boards/NAME.json"}
    there = _knowing(FAMILY) - {"matrixgen/families/rp2040.py", "matrixgen/families/family.py"}
    return port | start | own, there


TEMPLATE = "templates/firmware/ports/template"
