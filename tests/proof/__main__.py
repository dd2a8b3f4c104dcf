"""A proof of the engine and the usb folder: `python -m tests.proof [EXAMPLE|PAD|bench ...]`.

PAD is `timed`, `turns`, `presses`, `knobs`, `lights`, `together`, `pointer` or `timed pointer`, of
the tests' keyboards.

Frama-C's Eva (Debian's `frama-c-base`) runs the firmware of each example in all ways at once, by
abstract interpretation: any switches, any passing of time, any bus events, any packets of any host,
for ever (`port.c` beside this file). An alarm is a place where it could not rule out an access out
of bounds, an overflow, a bad shift or a read of what was never written. None is a proof that there
is no such place; one is a place to look at.

What it does not prove: the ports, timing, and that the keyboard does what the .keys file means.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from matrixgen.emit.bench_tree import bench_tree
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.jobs.examine import examine
from tests.examples.shipped import FOLDER, NAMES
from tests.firmware.host_build import host_view, write_tree
from tests.firmware.lights import lights_pad
from tests.firmware.pads import (
    knob_pad,
    layered_pairs_pad,
    press_pad,
    turn_pad,
)
from tests.firmware.test_bench import host_bench
from tests.proof.pads import few_pointer_pad, few_timed_pad, timed_pointer_pad

OPTIONS = (
    *("-c11", "-eva", "-eva-split-return", "auto"),
    *("-eva-split-limit", "1000"),  # one state for each action of the largest keyboard
)
OF_A_KEYBOARD = ("-eva-precision", "2")
OF_LAYERS = ("-eva-slevel-function", "layers_find:200,layers_on:200")
"""Which layers are on, and how far a walk over them goes, is looked at case by case."""

OF_A_BENCH = ("-eva-precision", "4")
"""Its texts and its pairs of pins are walked letter by letter and pin by pin; it is small."""

INCLUDES = "-cpp-extra-args=-I. -Iengine -Iusb -Iport -Itables"
PORT = Path(__file__).parent / "port.c"

DEAD = Path(__file__).parent / "dead.ml"

PADS = {
    "timed": few_timed_pad,
    "turns": turn_pad,
    "presses": press_pad,
    "knobs": knob_pad,
    "lights": lights_pad,
    "together": layered_pairs_pad,
    "pointer": few_pointer_pad,
    "timed pointer": timed_pointer_pad,
}
"""Every behaviour that knows time, typing in turn, knobs, lights, sets of keys, a pointer.

`timed` and both with a pointer are small pads of the proof's own: Eva takes a minute or two for
them, and far longer than ten minutes for those that the other tests of these behaviours type on.
"""

BENCH = "bench"

OFF_BY_ONE = ("engine/report.c", "place < USAGE_BYTES", "place <= USAGE_BYTES")
"""What is planted to see that it would be found."""


def view_of(name: str) -> FirmwareView:
    """Return an example, or a keyboard of the tests."""
    if name in PADS:
        return host_view(PADS[name]())
    examined = examine(str(FOLDER / name / f"{name}.keys"))
    return firmware_view(examined.mounted[0], f"{name}.keys", port="host")


def tree_of(name: str, folder: Path) -> Path:
    """Write the firmware of a keyboard, with the port of the proof."""
    tree = bench_tree(host_bench("at90usb162")) if name == BENCH else firmware_tree(view_of(name))
    write_tree(tree, folder)
    shutil.copy(PORT, folder / "proof.c")
    shutil.copy(DEAD, folder)  # beside which frama-c writes what it compiles from it
    return folder


@dataclass(frozen=True)
class Finding:
    """What Eva says of one firmware; places are file and line."""

    alarms: tuple[tuple[str, str], ...]
    reached: str
    uncalled: tuple[str, ...]
    dead: tuple[tuple[str, int], ...]


def analyse(tree: Path) -> Finding:
    """Run Eva over a firmware tree."""
    files = [
        str(p.relative_to(tree))
        for d in ("bench", "engine", "usb", "tables")
        for p in (tree / d).rglob("*.c")
    ]
    how = OF_A_BENCH if (tree / "bench").exists() else OF_A_KEYBOARD
    if has_layers(tree):
        how += OF_LAYERS
    options = (*OPTIONS, *how, INCLUDES, "-load-script", DEAD.name)
    command = ["frama-c", *options, *sorted(files), "proof.c"]
    here = {**os.environ, "PWD": str(tree)}  # what it takes for the current folder
    ran = subprocess.run(command, cwd=tree, env=here, capture_output=True, text=True, check=False)
    return read_output(ran.stdout + ran.stderr)


def has_layers(tree: Path) -> bool:
    """Whether a keyboard has more than one: then there is a walk over those that are on."""
    layers = tree / "engine" / "layers.c"
    return layers.exists() and "layers_on(" in layers.read_text("utf-8")


def read_output(output: str) -> Finding:
    text = " ".join(output.split())
    assert "ANALYSIS SUMMARY" in text, output[-2000:]
    found = [_alarm(one) for one in text.split("[eva:alarm] ")[1:]]
    reached = re.search(r"\d+ functions analyzed.*?% coverage\. In these.*?% coverage", text)
    assert reached, output[-2000:]
    uncalled = re.findall(r"\] uncalled (\w+)", text)
    dead = {(file, int(line)) for file, line in re.findall(r"\] dead (\S+?):(\d+)", text)}
    return Finding(
        tuple(found),
        reached.group(),
        tuple(sorted(uncalled)),
        tuple(sorted(place for place in dead if place[0] != "proof.c")),
    )


def _alarm(text: str) -> tuple[str, str]:
    """Return the file of an alarm, and what could not be proven: an access, or what port.h asks."""
    found = re.match(r"(\S+?):\d+: Warning: .*?assert(?:ion)? (.*?)(?:;| got status)", text)
    assert found, text[:300]
    return found[1], found[2].replace("\\", "")


def show(tree: Path, finding: Finding) -> None:
    """Print what was reached and what was not, each dead line with its text."""
    print(f"  {finding.reached}")
    for file, what in finding.alarms:
        print(f"  {file}: {what}")
    print(f"  never called: {', '.join(finding.uncalled) or 'none'}")
    print("  lines on which something is never done:" if finding.dead else "  no dead lines")
    for file, line in finding.dead:
        text = (tree / file).read_text("utf-8").splitlines()[line - 1]
        print(f"    {file}:{line}: {text.strip()}")


def prove(name: str) -> bool:
    begin = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        finding = analyse(tree_of(name, Path(folder)))
        seconds = time.perf_counter() - begin
        print(f"{name}: {len(finding.alarms)} alarms; {seconds:.0f} s", flush=True)
        show(Path(folder), finding)
    return not finding.alarms


def plant(name: str) -> bool:
    """Whether an off-by-one that is planted is found."""
    file, there, instead = OFF_BY_ONE
    with tempfile.TemporaryDirectory() as folder:
        tree = tree_of(name, Path(folder))
        text = (tree / file).read_text("utf-8")
        assert there in text
        (tree / file).write_text(text.replace(there, instead, 1), encoding="utf-8")
        finding = analyse(tree)
    caught = any(where == file for where, _ in finding.alarms)
    print(f"an off-by-one planted in {file} is {'found' if caught else 'NOT FOUND'}")
    return caught


def main() -> int:
    if shutil.which("frama-c") is None:
        print("this needs frama-c: Debian's package frama-c-base", file=sys.stderr)
        return 2
    names = sys.argv[1:] or [*PADS, *NAMES, BENCH]
    proven = [prove(name) for name in names]
    keyboards = [name for name in names if name != BENCH]
    found = not keyboards or plant(keyboards[0])
    return 0 if all(proven) and found else 1


if __name__ == "__main__":
    sys.exit(main())
