"""What takes long to make and is always the same, made once for all the workers of a test run.

A worker that wants what another one is just making waits for it. Nothing is kept from one run to
the next. Tests of the making itself do not ask here.
"""

from __future__ import annotations

import atexit
import fcntl
import functools
import hashlib
import os
import shutil
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

FOLDER = "MATRIXGEN_TESTS_MADE_ONCE"
"""Where the workers of a run find it: `tests/conftest.py` sets it before they start."""


@functools.cache
def folder() -> Path:
    """Return the run's folder, or, where nobody has made one, a folder of this process."""
    if FOLDER in os.environ:
        return Path(os.environ[FOLDER])
    made = Path(tempfile.mkdtemp(prefix="made-once-"))
    atexit.register(shutil.rmtree, made, ignore_errors=True)
    return made


def made_once(key: str, make: Callable[[], bytes]) -> bytes:
    """Return what `make` makes, or has made; `key` names all that it depends on."""
    place = _place(key)
    with place.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not place.exists():
            aside = place.with_suffix(".half")
            aside.write_bytes(make())
            aside.replace(place)
        return place.read_bytes()


def kept(key: str) -> bytes | None:
    """Return what was kept under a key; None where nothing is."""
    try:
        return _place(key).read_bytes()
    except FileNotFoundError:
        return None


def keep(key: str, data: bytes) -> None:
    """Keep something, for which nobody waits: two workers may make it at once."""
    place = _place(key)
    aside = place.with_suffix(f".{os.getpid()}")
    aside.write_bytes(data)
    aside.replace(place)


def _place(key: str) -> Path:
    return folder() / hashlib.sha256(key.encode()).hexdigest()


def key_of(tree: Mapping[str, bytes], *words: str) -> str:
    """Return a key for what is made of files, by name and content, and of some words."""
    files = [(name, hashlib.sha256(tree[name]).hexdigest()) for name in sorted(tree)]
    return repr((files, words))
