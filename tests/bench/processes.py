"""How long whole processes take, each beside a reference with which it takes turns."""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path


def process_seconds(
    *arguments: str, environment: Mapping[str, str] | None = None, check: bool = True
) -> float:
    """Time a Python process with these arguments."""
    begin = time.perf_counter()
    subprocess.run(
        [sys.executable, *arguments],
        check=check,
        stdout=subprocess.DEVNULL,
        stderr=None if check else subprocess.DEVNULL,
        env=environment,
    )
    return time.perf_counter() - begin


def process_cpu_seconds(
    *arguments: str, environment: Mapping[str, str] | None = None, check: bool = True
) -> float:
    """Return what a Python process with these arguments takes of a processor, whoever waits."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    process_seconds(*arguments, environment=environment, check=check)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def worked(process: int) -> float:
    """Return the seconds of a processor that a process's main thread has had (Linux alone)."""
    return int(Path(f"/proc/{process}/schedstat").read_text().split()[0]) / 1e9


def medians(
    commands: Mapping[str, Sequence[str]],
    seconds: Callable[..., float],
    rounds: int,
    warming_up: int = 0,
) -> dict[str, float]:
    """Return the median of what each command takes; they take turns, first to warm up."""
    taken: dict[str, list[float]] = {name: [] for name in commands}
    for _ in range(warming_up + rounds):
        for name, words in commands.items():
            taken[name].append(seconds(*words))
    return {name: statistics.median(times[warming_up:]) for name, times in taken.items()}


def print_beside(reference: str, middles: Mapping[str, float]) -> None:
    """Print medians in milliseconds, and how many times that of the reference each is."""
    wide = max(map(len, middles))
    for name, middle in middles.items():
        times = middle / middles[reference]
        print(f"  {name:<{wide}} {middle * 1e3:8.1f} ms  {times:6.2f} x {reference}")
