"""What can be made again, kept in the user's cache folder from one run to the next.

A file is written under another name first and then renamed, so that a reader never sees half of
one. It begins with the checksum of the rest: a damaged file is as good as none.
"""

from __future__ import annotations

import os
import stat
import sys
from functools import cache
from pathlib import Path
from zlib import crc32

from matrixgen.reading import read_regular
from matrixgen.resources import resource

MOST_BYTES = 50_000_000
"""The largest file that is read: nobody keeps as much."""

_LENGTH = 4
"""Bytes of the checksum."""


def cache_folder() -> Path:
    """Return where this user's programs keep what they can make again."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA") or "~/AppData/Local"
    elif sys.platform == "darwin":
        base = "~/Library/Caches"
    else:
        base = os.environ.get("XDG_CACHE_HOME") or "~/.cache"
    return Path(os.path.expanduser(base)) / "matrixgen"  # noqa: PTH111 - never raises, unlike Path's


def kept_json(kind: str, name: str) -> Path:
    """Return the file in which one kind of thing is kept as JSON, under a name of any letters."""
    import hashlib

    digest = hashlib.sha256(name.encode("utf-8", "surrogateescape")).hexdigest()
    return cache_folder() / kind / f"{digest[:32]}.json"


def kept(path: Path) -> bytes | None:
    """Return what was kept in a file; None where there is none that is whole."""
    try:
        content = read_regular(path, MOST_BYTES)
    except OSError:
        return None
    is_whole = _checksum(content[_LENGTH:]) == content[:_LENGTH]
    return content[_LENGTH:] if is_whole else None


def _checksum(content: bytes) -> bytes:
    return crc32(content).to_bytes(_LENGTH)  # a hash tells no more of damage, and loads a library


def keep(content: bytes, path: Path) -> None:
    """Keep it in a file; the folder is made. Raises `OSError`, and then leaves nothing behind."""
    put_in_place(_checksum(content) + content, path)


def put_in_place(content: bytes, path: Path) -> None:
    """Write a file as it is; the folder is made. Raises `OSError`, and leaves nothing behind."""
    import tempfile  # it is seldom that something is new

    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, suffix=".part")
    try:
        with os.fdopen(handle, "wb") as part:
            part.write(content)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


@cache
def program_version() -> str:
    """Return a name for this program as it is installed: another one after any change of it.

    It is the names, sizes and times of its files; their contents would take longer to read than
    what is kept under it takes to make.
    """
    import hashlib

    folders = [Path(__file__).parent, resource("boards"), resource("grammar")]
    files = sorted(path for folder in folders for path in folder.rglob("*"))
    said = [_stamp(path) for path in files if "__pycache__" not in path.parts]
    text = "\n".join([sys.version, *said])
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()


def _stamp(path: Path) -> str:
    """Return what tells a file from another one in its place; it may be gone by now."""
    try:
        status = path.stat()
    except OSError:
        return str(path)
    is_file = stat.S_ISREG(status.st_mode)
    return f"{path} {status.st_size} {status.st_mtime_ns}" if is_file else str(path)
