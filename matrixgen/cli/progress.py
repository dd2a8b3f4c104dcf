"""A progress bar for what takes long."""

from __future__ import annotations

import os
import sys
import threading
import time
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


@contextmanager
def counted_seconds(what: str) -> Iterator[None]:
    """Say on standard error what is done and for how long already, as `progress_bar` shows a bar.

    For what has no steps, such as a compiler.
    """
    if not sys.stderr.isatty():
        yield
        return
    done = threading.Event()
    told = threading.Thread(target=_count, args=(what, done), daemon=True)
    told.start()
    try:
        yield
    finally:
        done.set()
        told.join()


def _count(what: str, done: threading.Event) -> None:
    """Count seconds until something is done, then leave the line as it was."""
    begin, line = time.monotonic(), ""
    while not done.wait(1.0 if line else BAR_AFTER):
        line = f"{what}: {time.monotonic() - begin:.0f} s"
        print(f"\r{line}", end="", file=sys.stderr, flush=True)
    if line:
        print(f"\r{' ' * len(line)}\r", end="", file=sys.stderr, flush=True)


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
