"""Writes a folder whole or not at all."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping
from pathlib import Path

from matrixgen.model.reason import reason_of
from matrixgen.reading import read_regular

MARK = "manifest.json"
"""A folder that holds this file, written by us, and just what it lists is ours to replace."""

MOST_BYTES = 1_000_000
"""The largest manifest that is read: ours have some 10,000."""

MADE_SINCE = frozenset(
    ("firmware/firmware.elf", "firmware/firmware.hex", "firmware/firmware.bin")  # by `make`
)
LEFT_BY_SYSTEMS = frozenset((".DS_Store", "Thumbs.db", "desktop.ini"))
"""What file managers leave in a folder that was looked at: nobody would miss it."""


def write_folder(out: Path, files: Mapping[str, bytes]) -> str | None:
    """Write `files` (relative path to content) as the whole content of the folder `out`.

    The files are written aside, in the same parent folder, and renamed into place at the end: at
    any moment `out` is the old folder or the new one. A folder that this program did not write, or
    that holds a file besides, such as a user's own notes, is never replaced, unless it is empty.

    Returns None, or why `out` was left as it is: somebody else's, or the system won't have it.
    """
    if reason := not_ours(out):
        return reason
    out = out.resolve()
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=f".{out.name}-", dir=out.parent) as aside:
            _fill(Path(aside) / "new", files)
            _swap(Path(aside), out)
    except OSError as error:
        return f"`{out}` cannot be written: {reason_of(error)}"
    return None


def holds_a_build(out: Path) -> str | None:
    """Return why several builds must not go under `out`: it is one build's folder; or None."""
    if _listed(out) is None:
        return None
    return f"`{out}` is the folder of one build, and several would go under it"


def not_ours(out: Path) -> str | None:
    """Return why `write_folder` would not replace `out`, or None."""
    if out.is_symlink() or (out.exists() and not out.is_dir()):
        return f"`{out}` is there already and is not a folder"
    if not out.is_dir() or not any(out.iterdir()):
        return None
    listed = _listed(out)
    if listed is None:
        return f"`{out}` holds files that this program did not write"
    for path in sorted(out.rglob("*")):
        name = path.relative_to(out).as_posix()
        if path.is_dir() and not path.is_symlink():
            continue
        if name not in listed and path.name not in LEFT_BY_SYSTEMS:
            return f"`{out}` holds `{name}`, which this program did not write"
    return None


def _listed(out: Path) -> frozenset[str] | None:
    """Return what a folder of ours may hold; None where its manifest is not ours."""
    try:
        manifest = json.loads(read_regular(out / MARK, MOST_BYTES))
        if manifest["tool"]["name"] != "matrixgen":
            return None
        return frozenset(manifest["files"]) | MADE_SINCE | {MARK}
    except (OSError, ValueError, KeyError, TypeError):
        return None


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
