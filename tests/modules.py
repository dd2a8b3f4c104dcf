"""The project's own code, file by file, and the names by which it is imported."""

from __future__ import annotations

from pathlib import Path

import matrixgen

PACKAGE = Path(matrixgen.__file__).parent
ROOT = PACKAGE.parent


def code_files(folder: str = "matrixgen") -> list[Path]:
    """Return the Python files of a folder of the checkout, without data that was copied there."""
    return sorted(path for path in (ROOT / folder).rglob("*.py") if "_data" not in path.parts)


def module_of(path: Path) -> str:
    """Return the name that a file is imported by."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
