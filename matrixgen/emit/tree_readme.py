"""The page of a firmware tree, for its maker: how to build it, what to change, what is where."""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping, Sequence
from pathlib import PurePosixPath

from matrixgen.emit.c_text import c_comment
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.jinja import environment
from matrixgen.record import Record

PAGE = "README.md"
TEMPLATE = "firmware/README.md.j2"

MAKEFILE = "Makefile"

_SENTENCE = re.compile(r"(?<=\.) (?=[A-Z])")
_NAMED = re.compile(r"^ACTION_\w+: ")
"""What is the name of the file in other words."""


class FolderPart(Record):
    """A header with its C file, or a file alone: their names in the folder, and what they are."""

    names: tuple[str, ...]
    text: str


class TreeFolder(Record):
    """A folder of the tree, with a slash, and its parts; the tree itself has no name."""

    name: str
    parts: tuple[FolderPart, ...]


def with_readme(tree: Mapping[str, bytes], view: FirmwareView) -> dict[str, bytes]:
    """Return a firmware tree with the page that tells of its files."""
    template = environment().get_template(TEMPLATE)
    folders = folders_of(tree, c_comment(view.product))
    page = template.render(view=view, folders=folders, tree=tree)
    return dict(sorted({**tree, PAGE: page.encode()}.items()))


def folders_of(tree: Mapping[str, bytes], product: str) -> tuple[TreeFolder, ...]:
    """Return the folders of a tree, in alphabetical order, each with all its files."""
    grouped: dict[str, dict[str, list[str]]] = {}
    for name in sorted(tree):
        path = PurePosixPath(name)
        folder = "" if path.parent == PurePosixPath() else f"{path.parent}/"
        stem = path.stem if path.suffix in (".c", ".h") else path.name
        grouped.setdefault(folder, {}).setdefault(stem, []).append(name)
    return tuple(
        TreeFolder(folder, tuple(_part(names, tree, product) for names in stems.values()))
        for folder, stems in sorted(grouped.items())
    )


def _part(names: Sequence[str], tree: Mapping[str, bytes], product: str) -> FolderPart:
    """Return a part; its header tells what it is, or else its C file."""
    texts = (what_it_is(name, tree[name].decode(), product) for name in reversed(names))
    return FolderPart(
        tuple(PurePosixPath(name).name for name in names), next(filter(None, texts), "")
    )


def what_it_is(name: str, text: str, product: str) -> str:
    """Return the first sentence of the comment that a file begins with; nothing where none does."""
    if name == MAKEFILE:
        marks, head = "#", re.match(r"((?:#.*\n)+)", text)
    else:
        marks, head = " *", re.match(r"/\*\n((?: \*.*\n)+?) \*/", text)
    if head is None:
        return ""
    lines = (line.lstrip(marks).strip() for line in head[1].splitlines())
    words = " ".join(itertools.takewhile(bool, lines))
    words = _NAMED.sub("", words.removeprefix(f"{product}: "))
    said = _SENTENCE.split(words, maxsplit=1)[0].rstrip(".:")
    return said[:1].upper() + said[1:]
