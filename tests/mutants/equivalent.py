"""Mutants that are no mistakes, though the compiler does not see it, and why.

`equivalent.txt` has them: a reason after `#`, then file and function, and indented below these a
line and what it may become. `equivalent_in_ports.txt` is the same for the ports, where a mutant may
also be one that no emulator can tell from what it should be.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

Key = tuple[str, str, str, str]


def read_table(text: str) -> Iterator[tuple[Key, str]]:
    """Return each mutant, by what names it, with the reason."""
    reason, file, function, before = "", "", "", ""
    for line in filter(None, map(str.rstrip, text.splitlines())):
        if line.startswith("# "):
            reason = line[2:]
        elif not line.startswith(" "):
            (file, function), before = line.split(": "), ""
        elif not before:
            before = line.strip()
        else:
            yield (file, function, before, line.strip()), reason


def _table(name: str) -> list[tuple[Key, str]]:
    return list(read_table(Path(__file__).with_name(name).read_text("utf-8")))


TABLE = _table("equivalent.txt")
EQUIVALENT = dict(TABLE)
PORTS_TABLE = _table("equivalent_in_ports.txt")
EQUIVALENT_IN_PORTS = dict(PORTS_TABLE)
