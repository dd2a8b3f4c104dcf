"""Random lives at the whole firmware: `python -m tests.fuzz [SECONDS [PAD]]`, 600 s if not said.

libFuzzer (on Debian: `apt-get install clang llvm libclang-rt-14-dev`) makes bytes up, and keeps
those that reach something new. `entry.c` takes them as switch changes, sparks, time, bus events and
a host's packets, on the tests' keyboard of every behaviour with the usb folder, or on that of PAD,
`knobs`, `modifiers`, `pointer`, `presses` or `together`. It stops at a use of port.h against its
words and at a finding of the address and undefined-behaviour sanitizers, and prints the bytes in
hexadecimal. At the end it says how often it ran, and which lines of the engine and the usb folder
were never reached.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from matrixgen.emit.firmware_tree import firmware_tree
from tests.firmware.host_build import compile_c, host_view, sources, write_tree
from tests.firmware.pads import (
    knob_pad,
    modifier_pad,
    pointer_pad,
    press_pad,
    timed_pad,
    together_pad,
)
from tests.fuzz.seeds import write_seeds

SECONDS, LONGEST = 600, 4096
PADS = {
    "timed": timed_pad,
    "knobs": knob_pad,
    "modifiers": modifier_pad,
    "pointer": pointer_pad,
    "presses": press_pad,
    "together": together_pad,
}
ENTRY = Path(__file__).with_name("entry.c")
FINDINGS = "-fsanitize=fuzzer,address,undefined", "-fno-sanitize-recover=all"
REACHED = "-fsanitize=fuzzer", "-fprofile-instr-generate", "-fcoverage-mapping"


def build(tree: Path, name: str, options: tuple[str, ...]) -> Path:
    files = sources(tree, with_usb=True)
    return compile_c(tree, tree / name, files, "clang", *options)


def fuzz(tree: Path, corpus: Path, seconds: int) -> bool:
    """Run for so long; print the figures, or the bytes that broke it."""
    program = build(tree, "fuzz", FINDINGS)
    options = [f"-max_total_time={seconds}", f"-max_len={LONGEST}", "-print_final_stats=1"]
    command = [str(program), *options, "-seed=1", f"-artifact_prefix={tree}/broken-", str(corpus)]
    ran = subprocess.run(command, capture_output=True, text=True, errors="replace", check=False)
    edges = re.findall(r"cov: (\d+) ft: (\d+) corp: (\d+)", ran.stderr)
    runs = re.search(r"number_of_executed_units: (\d+)", ran.stderr)
    if edges and runs:
        reached, features, kept = map(int, edges[-1])
        print(f"{int(runs[1]):,} runs, {reached:,} edges, {features:,} features, {kept:,} kept")
    if ran.returncode != 0:
        print(ran.stderr[-4000:])
        for path in tree.glob("broken-*"):
            print(f"the bytes: {path.read_bytes().hex()}")
    return ran.returncode == 0


def unreached(tree: Path, corpus: Path) -> list[str]:
    """Play what was kept again, and return the lines that none of it reached."""
    program, raw, profile = build(tree, "reached", REACHED), tree / "raw", tree / "profile"
    here = {"LLVM_PROFILE_FILE": str(raw)}
    subprocess.run([program, "-runs=0", corpus], env=here, capture_output=True, check=True)
    subprocess.run(["llvm-profdata", "merge", "-o", profile, raw], check=True)
    show = ["llvm-cov", "show", program, f"-instr-profile={profile}"]
    folders = [str(tree / "engine"), str(tree / "usb")]
    shown = subprocess.run([*show, *folders], capture_output=True, text=True, check=True).stdout
    file, lines = "", []
    for line in shown.splitlines():
        if line.startswith(str(tree)):
            file = line.rstrip(":").removeprefix(f"{tree}/")
        elif found := re.match(r" *(\d+)\| +0\|(.*)", line):
            lines.append(f"{file}:{found[1]}: {found[2].strip()}")
    return lines


def main() -> int:
    if shutil.which("clang") is None or shutil.which("llvm-cov") is None:
        print("this needs Debian's packages clang, llvm and libclang-rt-14-dev", file=sys.stderr)
        return 2
    seconds = int(sys.argv[1]) if len(sys.argv) > 1 else SECONDS
    with tempfile.TemporaryDirectory() as name:
        pad = PADS[sys.argv[2]]() if len(sys.argv) > 2 else timed_pad()
        tree = write_tree(firmware_tree(host_view(pad)), Path(name))
        shutil.copy(ENTRY, tree)
        corpus = write_seeds(tree / "corpus")
        sound = fuzz(tree, corpus, seconds)
        if sound:
            never = unreached(tree, corpus)
            print("\n".join(["lines never reached:", *never] if never else ["every line reached"]))
    return 0 if sound else 1


if __name__ == "__main__":
    sys.exit(main())
