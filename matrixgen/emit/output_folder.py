"""Writes a folder whole or not at all."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping
from pathlib import Path

from matrixgen.model.reason import reason_of

MARK = "manifest.json"
"""A folder that holds this file, written by us, is ours to replace."""


class FolderRefused(Exception):
    """The folder can't be written; the message says why, in words for the user."""


def write_folder(out: Path, files: Mapping[str, bytes]) -> None:
    """Write `files` (relative path to content) as the whole content of the folder `out`.

    The files are written aside, in the same parent folder, and renamed into place at the end: at
    any moment `out` is the old folder or the new one. A folder that this program did not write is
    never replaced, unless it is empty.

    Raises `FolderRefused` where `out` is somebody else's or the system won't have it.
    """
    if reason := _not_ours(out):
        raise FolderRefused(reason)
    out = out.resolve()
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=f".{out.name}-", dir=out.parent) as aside:
            _fill(Path(aside) / "new", files)
            _swap(Path(aside), out)
    except OSError as error:
        raise FolderRefused(f"`{out}` can't be written: {reason_of(error)}") from error


def _not_ours(out: Path) -> str | None:
    if out.is_symlink() or (out.exists() and not out.is_dir()):
        return f"`{out}` is there already and is no folder"
    if not out.is_dir() or not any(out.iterdir()):
        return None
    try:
        ours = json.loads((out / MARK).read_text(encoding="utf-8"))["tool"]["name"] == "matrixgen"
    except (OSError, ValueError, KeyError, TypeError):
        ours = False
    return None if ours else f"`{out}` holds files that this program did not write"


def _fill(folder: Path, files: Mapping[str, bytes]) -> None:
    for name, content in sorted(files.items()):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)


def _swap(aside: Path, out: Path) -> None:
    """Put `aside/new` in the place of `out`; what was there goes with `aside`."""
    old = aside / "old"
    if out.exists():
        out.rename(old)
    try:
        (aside / "new").rename(out)
    except OSError:
        if old.exists():
            old.rename(out)
        raise
