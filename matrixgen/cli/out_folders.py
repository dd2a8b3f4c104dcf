"""The folders that a build writes, one for each controller."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from matrixgen.boards import Profile
from matrixgen.emit.output_folder import holds_a_build, not_ours


def folders_of(arguments: argparse.Namespace, name: str, profiles: Sequence[Profile]) -> list[Path]:
    """Return where each controller's files go."""
    out = Path(arguments.out or name)
    return [out / one.name if arguments.all else out for one in profiles]


def refusal_of(arguments: argparse.Namespace, folders: Sequence[Path]) -> str | None:
    """Return why one of the folders may not be written, before any of them is."""
    several = holds_a_build(folders[0].parent) if arguments.all else None
    return several or next((reason for out in folders if (reason := not_ours(out))), None)
