"""A progress bar for what takes long."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

BAR_AFTER = 1.0
"""Seconds after which a bar is shown."""

ROOM_BEHIND = 4
"""Columns that a bar leaves free: a terminal writes `^C` there, and must not break the line."""


@contextmanager
def progress_bar(what: str, steps: int) -> Iterator[Callable[[], object]]:
    """Show a bar on standard error, if that is a terminal and what is done takes long.

    What it yields is called at each step. The bar goes at the end; where Ctrl+C ends it, it stays,
    and what is said of that comes below.
    """
    from tqdm import tqdm  # only here: most commands need none

    with tqdm(
        total=steps,
        desc=what,
        bar_format="{desc} {bar} {percentage:3.0f}%",
        delay=BAR_AFTER,
        leave=False,
        disable=None,
        ncols=_columns(),
        ascii=None if _has_blocks() else " #",
    ) as bar:
        try:
            yield bar.update
        except KeyboardInterrupt:
            bar.leave = True
            raise


def _columns() -> int | None:
    """Return how wide a bar may be; None where standard error does not tell its width."""
    try:
        columns = os.get_terminal_size(sys.stderr.fileno()).columns
    except (OSError, ValueError):
        return None
    return columns - ROOM_BEHIND if columns > ROOM_BEHIND else None


def _has_blocks() -> bool:
    """Whether a bar can be written with the blocks that tqdm draws with."""
    return (sys.stderr.encoding or "").lower().startswith("utf")
