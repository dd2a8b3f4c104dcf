"""C compiled file by file, each one once a run: most files of two keyboards are the same.

An object is known by the compiler and its flags, the file, and every file of its tree that it may
include; `tests/toolchain/test_objects.py` holds an image that is made so to the program's own.
"""

from __future__ import annotations

import hashlib
import re
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path, PurePosixPath

from tests.made_once import keep, kept

_INCLUDE = re.compile(rb'^[ \t]*#[ \t]*include[ \t]*"([^"]+)"', re.MULTILINE)


def compiled_objects(
    command: Sequence[str], tree: Mapping[str, bytes], sources: Sequence[str], folder: Path
) -> list[str]:
    """Compile sources of a tree, which is written in `folder`; return the objects' paths there.

    Raises `subprocess.CalledProcessError`, with what the compiler said.
    """
    names = {source: source.replace("/", "-")[:-2] + ".o" for source in sources}
    keys = {source: _key(command, tree, source) for source in sources}
    found = {source: kept(key) for source, key in keys.items()}
    for some in _batches([source for source in sources if found[source] is None]):
        called = [*command, "-c", *some]
        subprocess.run(called, cwd=folder, check=True, capture_output=True, text=True)
        for source in some:
            found[source] = (folder / PurePosixPath(source).name).with_suffix(".o").read_bytes()
            keep(keys[source], found[source])
    for source, name in names.items():
        (folder / name).write_bytes(found[source] or b"")
    return list(names.values())


def _batches(sources: list[str]) -> list[list[str]]:
    """Return groups in which no two have one name: objects are named after it."""
    groups: list[dict[str, str]] = []
    for source in sources:
        name = PurePosixPath(source).name
        free = next((group for group in groups if name not in group), None)
        if free is None:
            groups.append(free := {})
        free[name] = source
    return [list(group.values()) for group in groups]


def _key(command: Sequence[str], tree: Mapping[str, bytes], source: str) -> str:
    files = sorted(_reached(tree, source))
    contents = [(file, hashlib.sha256(tree[file]).hexdigest()) for file in files]
    return repr(("object", tuple(command), source, contents))


def _reached(tree: Mapping[str, bytes], source: str) -> set[str]:
    """Return a file and all that it may include, in whichever folder that is found."""
    reached, left = set[str](), [source]
    while left:
        file = left.pop()
        if file not in reached:
            reached.add(file)
            for name in _INCLUDE.findall(tree[file]):
                end = "/" + PurePosixPath(name.decode()).name
                left += [one for one in tree if f"/{one}".endswith(end)]
    return reached
