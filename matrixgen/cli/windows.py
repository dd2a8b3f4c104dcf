"""What Windows leaves to a program: wildcards, and the colours of its console.

Functions and numbers are of Microsoft's console API (`GetConsoleMode`, `SetConsoleMode`), from
memory. None of this has run on Windows: the tests replace the system's functions.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from glob import glob
from pathlib import Path
from typing import TextIO

OUTPUT_HANDLES = {1: -11, 2: -12}
"""Of standard output and standard error, by their file descriptors (GetStdHandle)."""

SEQUENCES = 0x0004
"""ENABLE_VIRTUAL_TERMINAL_PROCESSING: the console takes escape sequences for what they mean."""

ENDING = ".keys"


def expanded(words: Sequence[str]) -> list[str]:
    """Return the words of a command line with `*.keys` and the like replaced by the files.

    Shells elsewhere do that. A word that is no such pattern, or that fits nothing, stays.
    """
    return [file for word in words for file in _files(word)]


def _files(word: str) -> list[str]:
    is_pattern = word.endswith(ENDING) and ("*" in word or "?" in word)
    if not is_pattern or word.startswith("-") or Path(word).exists():
        return [word]
    return sorted(glob(word)) or [word]  # noqa: PTH207 - a word may begin with any folder


def takes_sequences(stream: TextIO) -> bool:
    """Let the console take escape sequences; return whether it does."""
    if sys.platform != "win32":
        return True
    import ctypes

    kernel = ctypes.windll.kernel32
    kernel.GetStdHandle.restype = ctypes.c_void_p
    handle = ctypes.c_void_p(kernel.GetStdHandle(OUTPUT_HANDLES[stream.fileno()]))
    mode = ctypes.c_uint32()
    if not kernel.GetConsoleMode(handle, ctypes.byref(mode)):
        return False
    return bool(kernel.SetConsoleMode(handle, mode.value | SEQUENCES))
