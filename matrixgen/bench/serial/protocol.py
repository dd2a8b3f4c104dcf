r"""The lines of the bench firmware, read as they come over a serial port.

    bench 2 ATmega32U4
    pins PD0 PD1 PD4
    fact turn 312
    rises PD0 1
    PD0 > PD4 closed
    ready
    PD0 > PD4 open
    PD1 high

`PD0 > PD4 closed` says that PD4 reads low while PD0 is pulled low, `PD1 high` that
something holds PD1 high, so that it is pulled no more. What a `fact` and `rises` say is in
`answers.py`. Lines end in `\r\n`. A program
that sends `?` and a line end hears everything again. A line may be torn, where the port was opened
in the middle of it, or come from a firmware that is no bench.
"""

from __future__ import annotations

import re

from matrixgen.failure import Failure
from matrixgen.model.prose import quoted

VERSIONS = ("1", "2")
"""Those that are understood: 1 is without `high`, and pulls a pin that lies on the supply."""

LONGEST = 1000
"""Bytes of a line, at most: a longer one is no line of the bench."""

MOST_KEPT = 3
"""Lines of something else that are kept, to be shown."""

PinPair = tuple[str, str]
"""The names of a pin that is pulled low, and of one that then reads low."""

_HEADER = re.compile(r"bench (\S+) (\S.*)")
_HIGH = re.compile(r"(\S+) high")
_FACT = re.compile(r"fact (\w{1,16}) (\w{1,16}(?: \w{1,16}){,3})")
_RISES = re.compile(r"rises (\S+) (\d{1,3}|never)")
_PAIR = re.compile(r"(\S+) > (\S+) (closed|open)")


class HeldHigh(Failure):
    """Something holds pins high: `chip` and `pins` by the names that the bench gives them.

    `is_late` says that it began after the bench had said everything: with a key, or a tool.
    """

    def __init__(self, chip: str, pins: tuple[str, ...], *, is_late: bool) -> None:
        super().__init__(f"unplug now: {quoted(pins)} held high")
        self.chip, self.pins, self.is_late = chip, pins, is_late


class Listener:
    """What a bench has said so far.

    `chip` is None until its first line was heard, and `is_ready` false until its last one.
    `closed` has the pairs that are closed now, `high` the pins that something holds high: those
    are not pulled, and close nothing. `foreign` has lines that a bench would not say, the
    first few, and `is_torn` says that one came since the bench began: it is to be asked again.
    `broken` counts those, and changes that tell of another one that never came.
    """

    def __init__(self) -> None:
        self.chip: str | None = None
        self.pins: list[str] = []
        self.closed: set[PinPair] = set()
        self.high: list[str] = []
        self.facts: dict[str, tuple[str, ...]] = {}
        self.rises: dict[str, int | None] = {}
        self.is_ready = self.is_torn = False
        self.foreign: list[str] = []
        self.broken = 0
        self.states: list[frozenset[PinPair]] = []
        self._rest = b""

    def feed(self, data: bytes) -> None:
        """Take bytes as they come, and every line that they end. Raises `Failure`."""
        *lines, self._rest = (self._rest + data).replace(b"\r", b"").split(b"\n")
        for line in lines:
            self._line(line.decode("ascii", "replace"))
        if len(self._rest) > LONGEST:
            self._is_foreign(self._rest[:LONGEST].decode("ascii", "replace"))
            self._rest = b""

    def forget(self) -> None:
        """Await everything from the start."""
        self.is_ready = self.is_torn = False
        self.chip = None

    def _line(self, line: str) -> None:
        header = _HEADER.fullmatch(line)
        if header:
            self._starts(*header.groups())
        elif self.chip is None:
            if line:
                self._is_foreign(line)
        elif line == "ready":
            self.is_ready, self.states = bool(self.pins), []
        elif line.startswith("pins "):
            self.pins += line.split()[1:]
        elif not (self._pair(line) or self._is_high(line) or self._answers(line)):
            self._is_foreign(line)

    def _starts(self, version: str, chip: str) -> None:
        if version not in VERSIONS:
            raise Failure(
                f"the bench firmware speaks version `{version}`, but matrixgen knows "
                f"{' and '.join(VERSIONS)}",
                "load the bench firmware that matrixgen builds",
            )
        self.chip, self.pins, self.closed, self.high = chip, [], set(), []
        self.facts, self.rises = {}, {}
        self.is_ready = self.is_torn = False

    def _pair(self, line: str) -> bool:
        found = _PAIR.fullmatch(line)
        if not found or found[1] not in self.pins or found[2] not in self.pins:
            return False
        pair = (found[1], found[2])
        if (pair in self.closed) == (found[3] == "closed"):
            self._is_broken()  # what opened or closed it before was lost
        if found[3] == "closed":
            self.closed.add(pair)
        else:
            self.closed.discard(pair)
        self.states.append(frozenset(self.closed))
        return True

    def _answers(self, line: str) -> bool:
        if found := _FACT.fullmatch(line):
            self.facts[found[1]] = tuple(found[2].split())
            return True
        found = _RISES.fullmatch(line)
        if not found or found[1] not in self.pins:
            return False
        self.rises[found[1]] = None if found[2] == "never" else int(found[2])
        return True

    def _is_high(self, line: str) -> bool:
        found = _HIGH.fullmatch(line)
        if not found or found[1] not in self.pins:
            return False
        self.high.append(found[1])
        self.closed = {pair for pair in self.closed if pair[0] != found[1]}
        self.states.append(frozenset(self.closed))
        return True

    def _is_foreign(self, line: str) -> None:
        self._is_broken()
        if len(self.foreign) < MOST_KEPT:
            self.foreign.append(line)

    def _is_broken(self) -> None:
        self.is_torn = True
        self.broken += self.chip is not None
