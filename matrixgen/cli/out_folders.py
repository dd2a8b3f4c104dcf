"""The folders that a build writes, one for each controller."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from pathlib import Path

from matrixgen.boards import Profile
from matrixgen.emit.output_folder import holds_a_build, not_ours, write_folder
from matrixgen.failure import Failure


def folders_of(arguments: argparse.Namespace, name: str, profiles: Sequence[Profile]) -> list[Path]:
    """Return where each controller's files go."""
    out = Path(arguments.out or name)
    return [out / one.name if arguments.all else out for one in profiles]


def write_folders(
    arguments: argparse.Namespace, folders: Sequence[Path], contents: Sequence[Mapping[str, bytes]]
) -> None:
    """Write what goes into each; raises `Failure`, mostly before any of them is written."""
    held = holds_a_build(folders[0].parent) if arguments.all else None
    refused = [held, *map(not_ours, folders)]
    written = (write_folder(*one) for one in zip(folders, contents, strict=True))
    if reason := next(filter(None, refused), None) or next(filter(None, written), None):
        raise Failure(reason, "name another folder with -o")
