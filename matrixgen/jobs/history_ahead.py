"""Answers about a long history that nothing is kept of, found by several processes at once.

What lies between two revisions depends on no third, so that a history is divided into stretches of
neighbours, of which each process finds out some. Whoever goes over the history finds them kept.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from typing import TYPE_CHECKING

from matrixgen.jobs.kept_history import KeptAnswer

if TYPE_CHECKING:
    from concurrent.futures import Future

Answers = Mapping[str, KeptAnswer]

Finder = Callable[[range], Answers]
"""What finds the answers about a stretch of places in a history. It goes to other processes."""

STRETCH = 25
"""Places in a stretch: its first content is read once more than it would be otherwise."""

FEW = 4 * STRETCH
"""New contents for which it is not worth while to start processes (0.2 s each)."""

_finder: Finder | None = None


@contextmanager
def found_ahead(finder: Finder, places: int, new: int) -> Iterator[Callable[[int], Answers]]:
    """Let other processes find answers about all places; yield what waits for those about one.

    Where only few contents are `new`, or there is one processor, nothing is found ahead. Nothing
    goes on in the other processes once the context ends.
    """
    workers = min(os.cpu_count() or 1, -(-places // STRETCH))
    if new <= FEW or workers < 2:
        yield lambda _: {}
        return
    # only here: a cold start of any command would wait for them
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    # a fork would copy the thread that watches the bar
    spawn = get_context("spawn")
    pool = ProcessPoolExecutor(workers, spawn, initializer=_begin, initargs=(finder,))
    try:
        stretches = [range(s, min(s + STRETCH, places)) for s in range(0, places, STRETCH)]
        waited = [pool.submit(_found, one) for one in stretches]
        yield lambda place: _answers_of(waited[place // STRETCH])
    finally:
        pool.shutdown(cancel_futures=True)


def _answers_of(stretch: Future[Answers]) -> Answers:
    """Wait for what was found; nothing, where the process was ended from outside."""
    from concurrent.futures import BrokenExecutor

    try:
        return stretch.result()
    except BrokenExecutor:
        return {}


def _begin(finder: Finder) -> None:
    """Take what a process is asked; Ctrl+C ends the one that asks, and with it this one."""
    global _finder
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _finder = finder


def _found(places: range) -> Answers:
    assert _finder
    return _finder(places)
