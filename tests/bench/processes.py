"""How long whole processes take."""

from __future__ import annotations

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
