"""C compiled file by file, each one once a run: most files of two keyboards are the same.

An object is known by the compiler and its flags, the file, and what counts in it and in every file
of its tree that it may include; `tests/toolchain/test_objects.py` holds an image that is made so to
the program's own.
"""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path, PurePosixPath

from matrixgen.toolchain.compiling import environment
from tests.made_once import keep, kept
from tests.preprocessed import counting


def compiled_objects(
    command: Sequence[str], tree: Mapping[str, bytes], sources: Sequence[str], folder: Path
) -> list[str]:
    """Compile sources of a tree, which is written in `folder`; return the objects' paths there.

    Raises `subprocess.CalledProcessError`, with what the compiler said.
    """
    names = {source: source.replace("/", "-")[:-2] + ".o" for source in sources}
    keys = {source: _key(command, tree, source) for source in sources}
    found = {source: kept(key) for source, key in keys.items()}
    compiled = _by_zig if "ziglang" in command else _by_gcc
    for some in _batches([source for source in sources if found[source] is None]):
        for source, made in zip(some, compiled(command, some, folder), strict=True):
            found[source] = made
            keep(keys[source], made)
    for source, name in names.items():
        (folder / name).write_bytes(found[source] or b"")
    return list(names.values())


def _by_gcc(command: Sequence[str], sources: Sequence[str], folder: Path) -> list[bytes]:
    called = [*command, "-c", *sources]
    subprocess.run(called, cwd=folder, check=True, capture_output=True, text=True)
    return [(folder / _object(source)).read_bytes() for source in sources]


def _by_zig(command: Sequence[str], sources: Sequence[str], folder: Path) -> list[bytes]:
    """Take the objects from a cache of its own: `zig cc` compiles several files only to link them.

    Whether some of a program's files can be linked does not matter.
    """
    with tempfile.TemporaryDirectory() as name:
        called = [*command, *sources, "-o", f"{name}/some.elf"]
        done = subprocess.run(
            called, cwd=folder, env=environment(Path(name)), capture_output=True, text=True
        )
        objects = {path.name: path for path in Path(name, "cache", "o").glob("*/*.o")}
        if not all(_object(source) in objects for source in sources):
            raise subprocess.CalledProcessError(1, called, done.stdout, done.stderr)
        return [objects[_object(source)].read_bytes() for source in sources]


def _object(source: str) -> str:
    return PurePosixPath(source).with_suffix(".o").name


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
    return repr(("object", tuple(command), source, counting(tree, source)))
