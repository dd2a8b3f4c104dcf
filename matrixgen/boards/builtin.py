"""The profiles that are built in: their names, and their JSON."""

from __future__ import annotations

from functools import cache
from typing import Any

from matrixgen.boards.diodes import DIODES_FILE
from matrixgen.boards.laid_over import is_laid_over, laid_over
from matrixgen.resources import json_in, resource

SCHEMA_SUFFIX = ".schema.json"


@cache
def builtin_names() -> tuple[str, ...]:
    """Return the names of the built-in profiles, in alphabetical order."""
    files = resource("boards").glob("*.json")
    others = (SCHEMA_SUFFIX, DIODES_FILE)
    return tuple(sorted(f.stem for f in files if not f.name.endswith(others)))


def builtin_document(name: str) -> dict[str, Any]:
    """Return the JSON of a built-in profile that there is, with all that it takes from another."""
    document: dict[str, Any] = json_in("boards", f"{name}.json")
    if is_laid_over(document):
        return laid_over(document, builtin_document).document
    return document
