"""How long a layout takes to load: `python -m tests.bench.layouts_speed`.

Whole processes, in processor time, beside an empty one: importing the room, loading one layout and
asking for a sign, for one behind a dead key, and for a sign that Linux and Windows share. Then, in
one process, loading alone.
"""

from __future__ import annotations

import json
import timeit

from matrixgen.layouts import HostLayout
from matrixgen.layouts.files import layout_names
from matrixgen.resources import resource
from tests.bench.processes import medians, print_beside, process_cpu_seconds

RUNS = 20
ROOM = "from matrixgen.layouts import layout_named"
PROCESSES = {
    "empty": "pass",
    "Python's own modules that it needs": "import functools, json, pathlib, typing, unicodedata",
    "the room imported": ROOM,
    "one sign of `de` on Linux": f"{ROOM}; layout_named('de', 'linux').way('@')",
    "one behind a dead key": f"{ROOM}; layout_named('de', 'linux').way('é')",
    "one that Linux and Windows share": f"{ROOM}; layout_named('de').way('é')",
}


def main() -> None:
    """Print the figures: medians of processes that take turns, and of reading one file."""
    commands = {name: ("-c", code) for name, code in PROCESSES.items()}
    print(f"{len(layout_names())} layouts; processor time of a process, median of {RUNS}:")
    print_beside("empty", medians(commands, process_cpu_seconds, RUNS))
    path = resource("grammar") / "layouts" / "de.json"

    def load() -> None:
        HostLayout(json.loads(path.read_text("utf-8")), "linux").way("@")

    print(f"  loading alone {timeit.timeit(load, number=500) * 2:.2f} ms")


if __name__ == "__main__":
    main()
