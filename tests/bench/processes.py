"""How long whole processes take."""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections.abc import Mapping


def process_seconds(
    *arguments: str, environment: Mapping[str, str] | None = None, check: bool = True
) -> float:
    """Time a Python process with these arguments."""
    begin = time.perf_counter()
    subprocess.run(
        [sys.executable, *arguments], check=check, stdout=subprocess.DEVNULL, env=environment
    )
    return time.perf_counter() - begin


def process_cpu_seconds(*arguments: str, environment: Mapping[str, str] | None = None) -> float:
    """Return what a Python process with these arguments takes of a processor, whoever waits."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    process_seconds(*arguments, environment=environment)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
