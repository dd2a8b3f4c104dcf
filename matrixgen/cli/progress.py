"""A progress bar for what takes long."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

BAR_AFTER = 1.0
"""Seconds after which a bar is shown."""


@contextmanager
def progress_bar(what: str, steps: int) -> Iterator[Callable[[], object]]:
    """Show a bar on standard error, if that is a terminal and what is done takes long.

    What it yields is called at each step.
    """
    from tqdm import tqdm  # only here: most commands need none

    with tqdm(
        total=steps,
        desc=what,
        bar_format="{desc} {bar} {percentage:3.0f}%",
        delay=BAR_AFTER,
        leave=False,
        disable=None,
    ) as bar:
        yield bar.update
