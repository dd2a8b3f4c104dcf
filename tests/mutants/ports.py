"""Mistakes in the ports: what `changes.py` makes of their C, and instructions of their assembly.

Templates (`pins.c.j2`) are left alone, and so are `memory.c` and `multiply.c`, which know no chip.
The EEPROM's is the engine's affair.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator

from matrixgen.resources import resource
from tests.mutants.changes import Mutant, mutants_of

PORTS = ("avr", "rp2040")
NO_CHIP = {"memory.c", "multiply.c", "eeprom.c"}
ASSEMBLY = re.compile(r"__asm__ volatile\(.*?\);", re.DOTALL)
LITERAL = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
NUMBER = re.compile(r"#(\d+)(?![\dA-Fx])|\.word 0x([0-9A-F]{8})")


def port_mutants(port: str) -> list[Mutant]:
    """Return every mutant of a port's files, in the order of their places."""
    root = resource("templates") / "firmware"
    found: list[Mutant] = []
    for path in sorted((root / "ports" / port).glob("*.c")):
        if path.name not in NO_CHIP:
            name, text = path.relative_to(root).as_posix(), path.read_text("utf-8")
            found += [one for one in mutants_of(name, text) if one.line not in _assembly(text)]
            found += assembly_mutants(name, text)
    return found


def _assembly(text: str) -> set[int]:
    """Return the lines of assembly, in which C's signs mean nothing."""
    spans = [(found.start(), found.end()) for found in ASSEMBLY.finditer(text)]
    return {
        line
        for start, end in spans
        for line in range(text.count("\n", 0, start) + 1, text.count("\n", 0, end) + 2)
    }


def some_of(mutants: list[Mutant], most: int) -> list[Mutant]:
    """Return so many of them, spread by chance, and the same ones each time."""
    if len(mutants) <= most:
        return mutants
    places = sorted(random.Random(0).sample(range(len(mutants)), most))
    return [mutants[place] for place in places]


def assembly_mutants(file: str, text: str) -> Iterator[Mutant]:
    """Return a text with an instruction left out, or with another number in one."""
    for statement in ASSEMBLY.finditer(text):
        body = statement[0].split(":")[0] if '"n"' not in statement[0] else statement[0]
        for literal in LITERAL.finditer(body):
            if "\\n" not in literal[1] and " " not in literal[1] and literal[1] != "wdr":
                continue  # an operand's constraint
            begin = statement.start() + literal.start(1)
            for start, end, instead in _changes(literal[1]):
                yield _made(file, text, begin + start, begin + end, instead)


def _changes(literal: str) -> Iterator[tuple[int, int, str]]:
    start = 0
    for part in re.split(r"(\\n\\t|\\n)", literal):
        code = part.strip()
        if code and not part.startswith("\\") and not code.startswith((".", "1:", "2:")):
            yield start, start + len(part), ""
        for number in NUMBER.finditer(part):
            group = 1 if number[1] else 2
            value = int(number[1]) if number[1] else int(number[2], 16)
            other = str(value // 2) if number[1] else f"{value ^ 0x100:08X}"
            if other != number[group]:
                yield start + number.start(group), start + number.end(group), other
        start += len(part)


def _made(file: str, text: str, start: int, end: int, instead: str) -> Mutant:
    changed = text[:start] + instead + text[end:]
    first = text.rfind("\n", 0, start) + 1
    last = text.find("\n", end)
    before, after = text[first:last], text[first:start] + instead + text[end:last]
    if text.count(before) > 1:
        above = text[text.rfind("\n", 0, first - 1) + 1 : first].strip()
        before = f"{above} {before.strip()}"
    where = re.findall(r"^[^\s#/{}].*?\b(\w+)\([^;]*?\)\s*\{", text[:start], re.MULTILINE)
    line = text.count("\n", 0, start) + 1
    return Mutant(
        file, where[-1] if where else "above", line, before.strip(), after.strip(), changed
    )
