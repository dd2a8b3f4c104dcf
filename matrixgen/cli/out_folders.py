"""The folders that a build writes, one for each controller."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from pathlib import Path

from matrixgen.boards import Profile
from matrixgen.emit.output_folder import holds_a_build, not_ours, write_folder


def folders_of(arguments: argparse.Namespace, name: str, profiles: Sequence[Profile]) -> list[Path]:
    """Return where each controller's files go."""
    out = Path(arguments.out or name)
    return [out / one.name if arguments.all else out for one in profiles]


def write_folders(
    arguments: argparse.Namespace, folders: Sequence[Path], contents: Sequence[Mapping[str, bytes]]
) -> str | None:
    """Write what goes into each; return why that cannot be, mostly before any of them is."""
    if arguments.all and (reason := holds_a_build(folders[0].parent)):
        return reason
    refused = [reason for out in folders if (reason := not_ours(out))]
    written = (write_folder(*one) for one in zip(folders, contents, strict=True))
    return refused[0] if refused else next((reason for reason in written if reason), None)
