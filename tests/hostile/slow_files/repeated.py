"""Slow files: a few lines, or a few letters, as often as there is room."""

from __future__ import annotations

from itertools import count

from matrixgen.boards import builtin_names, builtin_profile
from tests.hostile.slow_files.shapes import SHAPES, Shape, filled

PAD = "plate\n  line A B"
LAYERED = f"{PAD}\n\nlayer base\n  A = hold layer up\n\nlayer up\n  B = 1"
BOARDS = ", ".join(name for name in builtin_names() if builtin_profile(name).port)

LINES: dict[str, tuple[str, tuple[str, ...]]] = {
    "unknown findings allowed": (
        f'{PAD}\n\nkeyboard "Pad"',
        ("  allow unreachable-lager-or-key-{n}",),
    ),
    "many actions": (f"{LAYERED}\n\nactions", ("  action-{n} = tap Ctrl+A, hold layer up",)),
    "many layers": (f"{PAD}\n", ("layer l{n}\n  A = B",)),
    "a cell many times": (f"{PAD}\n\nlayer base", ("  A = B  B = A  A = Ctrl+C",)),
    "a picture too large": (
        f"{PAD}\n\nlayer base\n  A B\n\nlayer up",
        ("  A B ~ Qq Shift+1",),
    ),
    "one key many times": ("plate", ("  line " + "A " * 40,)),
    "many clusters of one name": ("plate", ("  cluster c at 1, 1", "    line A")),
    "many places": (PAD, ("  hole at 0.5, 0.5", "  keep clear 0, 0, 1000, 1000")),
    "many controllers": (f'{PAD}\n\nkeyboard "Pad"', (f"  controller {BOARDS}",)),
    "many comments": (PAD, ('# "', "  #", "#\t#", "", "   ")),
    "statements that do not read": (
        f"{PAD}\n\nwiring",
        ("  rwo r0 A B", "  row", "  column ="),
    ),
    "blocks that do not read": (f"{PAD}\n", ("plat", "keybord", "  lyer")),
    "many wires": (
        'keyboard "Pad"\n controller atmega32u4\n\nplate\n  line A B C\n\nwiring',
        ("  row r{n} on PB0 A to C",),
    ),
}
"""What a file begins with, and lines that come again and again, each time with another number."""

LETTERS: dict[str, tuple[str, str, int, str]] = {
    "a long comment": (f"{PAD}\n# ", 'ä#"', 240_000, "\n"),
    "a long line of mistakes": (f"{PAD}\n\nwiring\n  row r0 A", " q{n}", 110_000, ""),
    "a long line of wide letters": (f"{PAD}\n\nwiring\n  row r0 A", " 日本{n}", 75_000, ""),
    "one word without an end": ("plate\n  line ", "A", 900_000, ""),
    "a text without an end": ('plate\n  line A\n\nkeyboard "', '\\"', 400_000, ""),
    "symbols without an end": ("plate\n  line ", "-[];'`./", 110_000, ""),
    "digits without an end": ("plate\n  line A:", "1", 900_000, "\n"),
    "modifiers without an end": (f"{PAD}\n\nlayer base\n  A = ", "Ctrl+", 180_000, "B\n"),
}
"""What a file begins with, letters that come so often in all of it, and its end."""


def of_lines(head: str, lines: tuple[str, ...]) -> Shape:
    return lambda size: filled(head, (line.format(n=n) for n in count() for line in lines), size)


def of_letters(head: str, letters: str, most: int, end: str) -> Shape:
    return lambda size: head + "".join(letters.format(n=n) for n in range(int(size * most))) + end


SHAPES |= {name: of_lines(*said) for name, said in LINES.items()}
SHAPES |= {name: of_letters(*said) for name, said in LETTERS.items()}
