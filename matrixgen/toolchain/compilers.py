"""The compilers that can build the firmware, and how they are called."""

from __future__ import annotations

import functools
import importlib.util
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from typing import Literal

CompilerKind = Literal["gcc", "clang"]

COMMON_FLAGS = (
    "-std=gnu11",
    "-Os",
    "-ffreestanding",
    "-Wall",
    "-Wextra",
    "-Werror",
    "-Wconversion",
    "-ffunction-sections",
    "-fdata-sections",
    "-fno-jump-tables",  # GCC's need a helper of libgcc, which nothing links
    "-nostdlib",
    "-Iengine",
    "-Iusb",
    "-Iport",
    "-Itables",
    "-Wl,-T,port/link.ld",
    "-Wl,--gc-sections",
)
"""Flags of both compilers, run at the top of a firmware tree. `Makefile.j2` says the same."""

KIND_FLAGS: dict[CompilerKind, tuple[str, ...]] = {
    "gcc": ("-nostartfiles", "-Wl,--relax", "-flto", "-Wl,-u,main"),
    # `zig cc` adds checks at run time for undefined behaviour, which need a library; and it warns
    # that no start-up code will be linked, of which we have our own.
    "clang": (
        "-Xclang",
        "-Oz",  # `zig cc` itself takes it for -Os
        "-fno-sanitize=all",
        "-Wno-avr-rtlib-linking-quirks",
    ),
}


@dataclass(frozen=True, slots=True)
class Compiler:
    """A compiler for AVR on this machine: `command` starts it, `title` names it and its version."""

    kind: CompilerKind
    title: str
    command: tuple[str, ...]

    def call(self, chip: str, sources: tuple[str, ...], out: str) -> tuple[str, ...]:
        """Return the command that builds `sources` for `chip`, in lower case, into the file `out`.

        Paths are relative to the firmware tree, where the command must be run.
        """
        target = {
            "gcc": (f"-mmcu={chip}",),
            "clang": ("-target", "avr-freestanding-none", f"-mcpu={chip}"),
        }[self.kind]
        flags = (*target, *COMMON_FLAGS, *KIND_FLAGS[self.kind])
        return (*self.command, *flags, *sources, "-o", out)


@functools.cache
def find_compiler(wanted: CompilerKind | None = None) -> Compiler | None:
    """Return avr-gcc if it is on the path, else the ziglang package's Clang, else None.

    `wanted` asks for one of the two.
    """
    kinds: tuple[CompilerKind, ...] = (wanted,) if wanted else ("gcc", "clang")
    found = (_gcc() if kind == "gcc" else _clang() for kind in kinds)
    return next((compiler for compiler in found if compiler), None)


def _gcc() -> Compiler | None:
    path = shutil.which("avr-gcc")
    if path is None:
        return None
    version = _first_line(path, "-dumpversion")
    return Compiler("gcc", f"avr-gcc {version}", (path,))


def _clang() -> Compiler | None:
    if importlib.util.find_spec("ziglang") is None:
        return None
    command = (sys.executable, "-m", "ziglang", "cc")
    found = re.search(r"clang version (\d+\.\d+\.\d+)", _first_line(*command, "--version"))
    return Compiler("clang", f"clang {found[1]}" if found else "clang", command)


def _first_line(*command: str) -> str:
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return done.stdout.partition("\n")[0].strip()
