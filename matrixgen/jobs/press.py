"""A keyboard to press in a page: its engine, and all that the page's script must know."""

from __future__ import annotations

from typing import Any

from matrixgen.emit.press_data import press_data
from matrixgen.emit.web_tree import has_matrix, web_tree, web_view
from matrixgen.model import Keyboard
from matrixgen.toolchain.web_engine import NoEngine, web_engine

NO_MATRIX = NoEngine(
    "No key of this file has a row and a column yet, so there is nothing to press."
)


def engine_of(
    keyboard: Keyboard, source_path: str, waits: NoEngine | None = None
) -> bytes | NoEngine:
    """Return a keyboard's engine as a WebAssembly module, or why there is none.

    `source_path` is the file it was read from. Controller and pins may be missing, and some keys
    may have no place in the matrix yet. `waits` is as `web_engine` has it.
    """
    if not has_matrix(keyboard):
        return NO_MATRIX
    return web_engine(web_tree(web_view(keyboard, source_path)), waits)


def press_data_of(
    keyboard: Keyboard, source_path: str, waits: NoEngine | None = None
) -> dict[str, Any]:
    """Return the data for the page's script, the engine or its reason included."""
    return press_data(keyboard, engine_of(keyboard, source_path, waits))
