"""What of a C file's own text, and of what it may include, its object can depend on.

Comments are nothing to an object, and neither is a macro, a type or a variable elsewhere that
nothing names: of the sizes that a keyboard has in one header, most files ask for a few. A file that
pastes words together may name anything.
"""

from __future__ import annotations

import functools
import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

_PIECE = re.compile(
    r'"(?:\\.|[^"\\\n])*"|' r"'(?:\\.|[^'\\\n])*'|" r"(?P<comment>/\*.*?\*/|//[^\n]*)", re.DOTALL
)
_DEFINES = re.compile(
    r"#\s*define\s+(?P<macro>\w+)|(?:typedef|extern)\b[^;{,=]*?(?P<name>\w+)(?:\[[^\]]*\])*;$"
)
_INCLUDE = re.compile(r'^\s*#\s*include\s*"([^"]+)"')
_WORD = re.compile(r"[A-Za-z_]\w*")


@dataclass(frozen=True)
class Line:
    """A logical line without comments, and the words in it.

    `defines` is the macro, type or variable that the line is only there to name, if it is.
    """

    text: str
    defines: str | None
    words: frozenset[str]


def counting(tree: Mapping[str, bytes], source: str) -> list[tuple[str, str]]:
    """Return the lines that count, each with its file: of a source and of all that it may include.

    An include is looked for by its name, in whichever folder of the tree that is.
    """
    lines = [(name, line) for name in sorted(reached(tree, source)) for line in _lines(tree[name])]
    named = _named([line for _, line in lines])
    return [
        (name, line.text) for name, line in lines if line.defines is None or line.defines in named
    ]


def _named(lines: list[Line]) -> set[str]:
    """Return the words that lines say, those in the macros that they name among them."""
    bodies: dict[str, set[str]] = defaultdict(set)
    pastes = any("##" in line.text for line in lines)
    named = set[str]()
    for line in lines:
        if line.defines is None or pastes:
            named |= line.words
        else:
            bodies[line.defines] |= line.words
    new = named
    while new:
        new = {word for name in new & bodies.keys() for word in bodies[name]} - named
        named |= new
    return named


def reached(tree: Mapping[str, bytes], source: str) -> set[str]:
    """Return a file and all that it may include."""
    found, left = set[str](), [source]
    while left:
        file = left.pop()
        if file not in found:
            found.add(file)
            left += [one for name in _included(tree[file]) for one in tree if _ends(one, name)]
    return found


def _ends(path: str, name: str) -> bool:
    return path == name or path.endswith("/" + name)


@functools.cache
def _lines(content: bytes) -> tuple[Line, ...]:
    text = content.decode().replace("\\\n", " ")
    bare = _PIECE.sub(lambda piece: " " if piece["comment"] else piece[0], text)
    return tuple(_line(line.strip()) for line in bare.splitlines() if line.strip())


def _line(text: str) -> Line:
    defines = _DEFINES.match(text)
    name = (defines["macro"] or defines["name"]) if defines else None
    return Line(text, name, frozenset(_WORD.findall(text)))


@functools.cache
def _included(content: bytes) -> frozenset[str]:
    found = (_INCLUDE.match(line.text) for line in _lines(content))
    return frozenset(PurePosixPath(include[1]).name for include in found if include)
