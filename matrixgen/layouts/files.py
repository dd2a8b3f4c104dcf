"""The files of `grammar/layouts/`: which layouts there are, and what is in the file of one."""

from __future__ import annotations

from functools import cache
from typing import Any

from matrixgen.resources import json_in, resource

COMPOSE = "compose"
"""The file with what dead keys make of other keys, the same for all layouts."""


@cache
def _names() -> dict[str, str]:
    """Return each file's name without its ending, by the layout's: `us(intl)` is in `us-intl`."""
    files = (resource("grammar") / "layouts").glob("*.json")
    return {_name_of(path.stem): path.stem for path in files if path.stem != COMPOSE}


def _name_of(stem: str) -> str:
    layout, _, variant = stem.partition("-")
    return f"{layout}({variant})" if variant else layout


@cache
def layout_names() -> tuple[str, ...]:
    """Return the names of the layouts, as X11's registry has them, in alphabetical order."""
    return tuple(sorted(_names()))


def layout_language(name: str) -> str:
    """Return the language of a layout that there is, in words."""
    return str(document_of(name)["language"])


@cache
def document_of(name: str) -> dict[str, Any]:
    """Return the file of a layout that there is."""
    return _read(_names()[name])


@cache
def dead_keys() -> dict[str, dict[str, Any]]:
    """Return what is known of each dead key, by X11's name for it."""
    found: dict[str, dict[str, Any]] = _read(COMPOSE)["dead keys"]
    return found


def _read(stem: str) -> dict[str, Any]:
    found: dict[str, Any] = json_in("grammar", f"layouts/{stem}.json")
    return found
