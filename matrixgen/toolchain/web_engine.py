"""A keyboard's engine for a page: its tree as WebAssembly, made by the ziglang package's Clang.

It is kept in the user's cache folder, under a name that hashes all that it is made of. The same
tree and the same ziglang give the same bytes: the compiler sees relative paths alone.
"""

from __future__ import annotations

import hashlib
import importlib.metadata
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from matrixgen import cache
from matrixgen.model.reason import reason_of
from matrixgen.record import Record
from matrixgen.toolchain.compilers import clang_command
from matrixgen.toolchain.compiling import compiled_aside, sources_of

EXPORTS = (
    "web_advance",
    "web_base",
    "web_boot_loads",
    "web_bytes",
    "web_close",
    "web_faults",
    "web_lit",
    "web_layers",
    "web_leds",
    "web_open",
    "web_start",
    "web_step",
    "web_take_media",
    "web_take_report",
    "web_waiting",
)
"""All that a page sees of it besides its memory: the functions of `web.h`."""

EXPORTED_IF_THERE = ("web_knob",)
"""Those of `web.h` that only some keyboards have."""

INCLUDED = ("engine/layers.c",)
"""Files that another file of the port includes whole."""

FLAGS = (
    "-target",
    "wasm32-freestanding",
    "-mcpu=mvp",  # what every browser with WebAssembly can do
    "-std=c11",
    "-Xclang",
    "-Oz",  # `zig cc` itself takes it for -Os
    "-ffreestanding",
    "-fno-sanitize=all",  # its checks at run time need a library
    "-Wall",
    "-Wextra",
    "-Werror",
    "-Wconversion",
    "-ffunction-sections",
    "-fdata-sections",
    "-nostdlib",
    "-Iengine",
    "-Iport",
    "-Itables",
    "-Wl,--no-entry",
    "-Wl,--gc-sections",
    "-Wl,--strip-all",
    "-Wl,-z,stack-size=8192",  # bytes; a chip has a hundred
    *(f"-Wl,--export={name}" for name in EXPORTS),
)

MOST_KEPT = 64
"""Engines in the cache: a keymap that is revised makes a new one each time."""

_WASM = "engine.wasm"


class NoEngine(Record):
    """Why there is no engine, as a sentence for the page, and what a compiler said."""

    reason: str
    output: str = ""


NO_COMPILER = NoEngine(
    "This page was made on a computer without the compiler that its keys need. "
    'Install it with: pip install "matrixgen[compiler]" and make the page again.'
)


def web_engine(tree: Mapping[str, bytes], waits: NoEngine | None = None) -> bytes | NoEngine:
    """Return a tree of the port `web` (relative path to content) as a WebAssembly module.

    Without a compiler, or where it fails, the reason is returned. A cache that cannot be read or
    written is done without. Where it would have to be compiled, `waits` is returned instead, if
    there is one.
    """
    command = clang_command()
    if command is None:
        return NO_COMPILER
    path = cache.cache_folder() / f"engine-{_fingerprint(tree)}.wasm"
    module = cache.kept(path)
    if module is not None:
        return module
    if waits is not None:
        return waits
    made = _compiled(tree, command)
    if isinstance(made, bytes):
        with suppress(OSError):  # a read-only home, a full disk: the next run makes its own
            cache.keep(made, path)
            _forget_old(path.parent)
    return made


def _forget_old(folder: Path) -> None:
    """Keep the newest engines alone."""
    engines = sorted(folder.glob("engine-*.wasm"), key=lambda path: path.stat().st_mtime_ns)
    for path in engines[:-MOST_KEPT]:
        path.unlink(missing_ok=True)


def _fingerprint(tree: Mapping[str, bytes]) -> str:
    """Return a name for what this compiler makes of a tree with these flags."""
    found = hashlib.sha256(importlib.metadata.version("ziglang").encode())
    for part in (*FLAGS, *INCLUDED):
        found.update(b"\0" + part.encode())
    for path, content in sorted(tree.items()):
        found.update(b"\0" + path.encode() + b"\0" + hashlib.sha256(content).digest())
    return found.hexdigest()[:32]


def _compiled(tree: Mapping[str, bytes], command: tuple[str, ...]) -> bytes | NoEngine:
    sources = [path for path in sources_of(tree) if path not in INCLUDED]
    call = (*command, *FLAGS, *_more_exports(tree), *sources, "-o", _WASM)
    try:
        made = compiled_aside(tree, call, _WASM)
    except OSError as error:
        return NoEngine(
            f"The compiler for the keys of this page could not be run: {reason_of(error)}."
        )
    if isinstance(made, bytes):
        return made
    reason = "The compiler refused the engine of this page, which is an error in matrixgen."
    return NoEngine(reason, made)


def _more_exports(tree: Mapping[str, bytes]) -> list[str]:
    declared = tree["port/web.h"].decode()
    return [f"-Wl,--export={name}" for name in EXPORTED_IF_THERE if f"{name}(" in declared]
