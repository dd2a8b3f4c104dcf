"""Mutants of the ports, on the emulated chips: `python -m tests.mutants.ports_trial [WORD...]`.

Of each port, 60 are tried that chance has chosen, always the same ones; `--most N` for more.
With words, only those whose file, function or line has one of them. What survives is printed,
unless `equivalent_in_ports.txt` says why no emulator can tell it from what it should be.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable

from matrixgen.toolchain import Image
from tests.mutants.changes import Mutant
from tests.mutants.equivalent import EQUIVALENT_IN_PORTS
from tests.mutants.on_chip import Bench, Call, benches
from tests.mutants.ports import PORTS, port_mutants, some_of
from tests.mutants.trial import is_killed

LEAST = 0.9
"""The share that has to be killed."""

HANGS_AFTER_S = 300
"""An emulated chip that hangs is told by its test; only the emulator itself would be still."""


class Chip:
    """A port's benches, each with the image as it should be."""

    def __init__(self, port: str) -> None:
        self.benches: list[tuple[Bench, Image]] = []
        for bench in benches(port):
            image = bench.built(None)
            assert image is not None
            self.benches.append((bench, image))

    def verdict(self, mutant: Mutant) -> bool | None:
        """Whether a test finds it; None if it is no C, or the same machine code."""
        differs = False
        for bench, right in self.benches:
            image = bench.built(mutant)
            if image is None:
                return None
            if image.flash == right.flash:
                continue
            differs = True
            if is_killed(_any_fails(bench.calls, image), HANGS_AFTER_S):
                return True
        return False if differs else None

    def sound(self) -> bool:
        """Whether every test passes on the images as they should be."""
        return not any(
            is_killed(_any_fails(bench.calls, image), HANGS_AFTER_S)
            for bench, image in self.benches
        )


def _any_fails(calls: list[Call], image: Image) -> Callable[[Callable[[], None]], bool]:
    def fails(still: Callable[[], None]) -> bool:
        for call in calls:
            still()
            try:
                call(image)
            except BaseException:  # a test that cannot go on has found something, too
                return True
        return False

    return fails


def try_port(port: str, words: list[str], most: int) -> float:
    """Try a port's mutants, print what survives, and return the share that is killed."""
    begin, chip = time.perf_counter(), Chip(port)
    assert chip.sound(), f"{port}: a test fails on the firmware as it is"
    known, counts = 0, {True: 0, False: 0, None: 0}
    fitting = [one for one in port_mutants(port) if _fits(one, words)]
    for mutant in some_of(fitting, most):
        if mutant.key in EQUIVALENT_IN_PORTS:
            known += 1
            continue
        killed = chip.verdict(mutant)
        counts[killed] += 1
        if killed is False:
            print(f"{mutant.file}: {mutant.function}: line {mutant.line}")
            print(f"    {mutant.before}\n    {mutant.after}", flush=True)
    tried = counts[True] + counts[False]
    share = counts[True] / tried if tried else 1.0
    print(f"{port}: {counts[True]} of {tried} killed, {share:.1%}; {known} are equivalent, by the")
    print(f"table; {counts[None]} are no C or the same machine code; of {len(fitting)} in all;")
    print(f"{time.perf_counter() - begin:.0f} s", flush=True)
    return share


def _fits(mutant: Mutant, words: list[str]) -> bool:
    return not words or any(word in " ".join(mutant.key) for word in words)


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants.ports_trial")
    parser.add_argument("--most", type=int, default=60)
    parser.add_argument("words", nargs="*")
    given = parser.parse_args()
    shares = [try_port(port, given.words, given.most) for port in PORTS]
    return 0 if min(shares) >= LEAST else 1


if __name__ == "__main__":
    sys.exit(main())
