"""Where the grammar, templates and boards lie: inside an installed wheel, or beside a checkout."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

_PACKAGE = Path(__file__).resolve().parent


def resource(folder: str) -> Path:
    """Return the folder `grammar`, `templates` or `boards`, wherever this copy keeps it.

    A wheel carries them in `matrixgen/_data` (see `pyproject.toml`); a checkout has them at its
    top level.
    """
    packed = _PACKAGE / "_data" / folder
    return packed if packed.is_dir() else _PACKAGE.parent / folder


def json_in(folder: str, name: str) -> Any:
    """Return what a JSON file of one of these folders holds."""
    return json.loads((resource(folder) / name).read_text("utf-8"))
