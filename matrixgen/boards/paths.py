"""Names of what is built in, and paths of what is a user's own."""

import os
from pathlib import Path


def is_path(word: str) -> bool:
    """Whether a controller or a diode is given by the path of a file and not by a built-in name."""
    return word.endswith(".json") or "/" in word or "\\" in word


def as_written(path: str, folder: Path) -> str:
    """Return a path as a .keys file in a folder writes it: from there, in quotes."""
    return f'"{Path(os.path.relpath(path, folder)).as_posix()}"'
