"""The compilers that can build the firmware: which are on this machine, and how they are called."""

from __future__ import annotations

import functools
import importlib.util
import re
import shutil
import subprocess
import sys

from matrixgen.families import AVR, CompilerKind, Family
from matrixgen.record import Record


class Compiler(Record):
    """A compiler for one chip family on this machine.

    `command` starts it, `title` names it and its version.
    """

    family: Family
    kind: CompilerKind
    title: str
    command: tuple[str, ...]

    def call(self, chip: str, sources: tuple[str, ...], out: str) -> tuple[str, ...]:
        """Return the command that builds `sources` for `chip`, in lower case, into the file `out`.

        Paths are relative to the firmware tree, where the command must be run.
        """
        return (*self.command, *self.family.flags(self.kind, chip), *sources, "-o", out)


def kinds_at_hand(family: Family) -> tuple[CompilerKind, ...]:
    """Return the kinds of compiler that are on this machine, the usual one first; starts none."""
    kinds: list[CompilerKind] = []
    if shutil.which(family.gcc):
        kinds.append("gcc")
    if clang_command():
        kinds.append("clang")
    return tuple(kinds)


@functools.cache
def find_compiler(wanted: CompilerKind | None = None, family: Family = AVR) -> Compiler | None:
    """Return the family's GCC if it is on the path, else the ziglang package's Clang, else None.

    `wanted` asks for one of the two.
    """
    kinds: tuple[CompilerKind, ...] = (wanted,) if wanted else ("gcc", "clang")
    found = (_gcc(family) if kind == "gcc" else _clang(family) for kind in kinds)
    return next((compiler for compiler in found if compiler), None)


def _gcc(family: Family) -> Compiler | None:
    path = shutil.which(family.gcc)
    if path is None:
        return None
    version = _first_line(path, "-dumpversion")
    return Compiler(family, "gcc", f"{family.gcc} {version}", (path,))


def clang_command() -> tuple[str, ...] | None:
    """Return what starts the ziglang package's Clang; None where the package is not installed."""
    if importlib.util.find_spec("ziglang") is None:
        return None
    return (sys.executable, "-m", "ziglang", "cc")


def _clang(family: Family) -> Compiler | None:
    command = clang_command()
    if command is None:
        return None
    found = re.search(r"clang version (\d+\.\d+\.\d+)", _first_line(*command, "--version"))
    return Compiler(family, "clang", f"clang {found[1]}" if found else "clang", command)


def _first_line(*command: str) -> str:
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return done.stdout.partition("\n")[0].strip()
