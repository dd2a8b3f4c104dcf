"""From a firmware tree to an image, in a folder of its own that nothing else sees."""

from __future__ import annotations

import os
import re
import subprocess
import tempfile
from collections.abc import Mapping
from pathlib import Path

from matrixgen.record import Record
from matrixgen.toolchain.compilers import Compiler
from matrixgen.toolchain.image import Image, Memory, read_image

ELF = "firmware.elf"
MEMORIES: dict[str, Memory] = {"flash": "flash", "ram": "RAM"}
"""What each region of the linker scripts is called elsewhere."""

_NO_ROOM = re.compile(r"will not fit in region [`'](flash|ram)'")
"""GNU ld and lld say it alike; not all of them say by how many bytes."""


class CompileFailure(Record):
    """The compiler refused the tree: which one, and all that it said."""

    compiler: Compiler
    output: str

    @property
    def overflows(self) -> tuple[Memory, ...]:
        """The memories that the linker found no room in; empty where it failed otherwise."""
        return tuple(dict.fromkeys(MEMORIES[region] for region in _NO_ROOM.findall(self.output)))


def compile_tree(
    tree: Mapping[str, bytes], chip: str, compiler: Compiler
) -> Image | CompileFailure:
    """Compile and link a firmware tree (relative path to content) for `chip`, in lower case.

    The same tree, compiler and chip give the same bytes: the compiler sees relative paths only.
    Raises `OSError` where the compiler can't be started or the temporary folder can't be written.
    """
    made = compiled_aside(tree, compiler.call(chip, sources_of(tree), ELF), ELF)
    if isinstance(made, str):
        return CompileFailure(compiler, made)
    return read_image(made, compiler.family)


def compiled_aside(tree: Mapping[str, bytes], command: tuple[str, ...], out: str) -> bytes | str:
    """Return the file `out` that a command makes of a tree, run where that lies, or what it said.

    Raises `OSError`.
    """
    # when that is ended with Ctrl+C, what the compiler has started writes for a moment longer
    with tempfile.TemporaryDirectory(prefix="matrixgen-", ignore_cleanup_errors=True) as name:
        folder = Path(name) / "firmware"
        write_tree(tree, folder)
        done = subprocess.run(
            command,
            cwd=folder,
            env=environment(Path(name)),
            capture_output=True,
            text=True,
            errors="replace",
            check=False,
        )
        made = folder / out
        is_made = done.returncode == 0 and made.is_file()
        return made.read_bytes() if is_made else done.stdout + done.stderr


def sources_of(tree: Mapping[str, bytes]) -> tuple[str, ...]:
    """Return the tree's C files, in the order in which they are compiled."""
    return tuple(sorted(path for path in tree if path.endswith(".c")))


def write_tree(tree: Mapping[str, bytes], folder: Path) -> None:
    """Write the files of a tree, relative path to content, into a folder. Raises `OSError`."""
    for path, content in tree.items():
        place = folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content)


def environment(folder: Path) -> dict[str, str]:
    """Return one that keeps a compiler's left-overs in a folder, its messages in plain English.

    `zig cc` keeps what it makes in caches of its own; in a fresh one it is as fast.
    """
    ours = {
        "ZIG_GLOBAL_CACHE_DIR": str(folder / "cache"),
        "ZIG_LOCAL_CACHE_DIR": str(folder / "cache"),
        "TMPDIR": str(folder),
        "LC_ALL": "C",
    }
    return {**os.environ, **ours}
