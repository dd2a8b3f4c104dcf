"""The program as it is, but for its clock: time passes with each look at the port that is in vain.

So many looks are counted in a file, from which a test knows that what it did has been seen for so
long, however busy the computer is. Run as `python -m tests.bench_port.program FILE WORD...`.
"""

from __future__ import annotations

import mmap
import struct
import sys
from pathlib import Path
from types import SimpleNamespace

from matrixgen.bench.serial import port
from matrixgen.bench.serial.port import SerialPort, open_port
from matrixgen.cli.main import main
from matrixgen.jobs import bench_events, bench_session
from tests.patience import HANGS_S

LOOK_S = port.READ_S
SHORT_S = 0.002
"""How long a look really takes."""

COUNTER = struct.Struct("=Q")


class Looks:
    """How often the port was looked at in vain, in a file that two processes share."""

    def __init__(self, path: Path) -> None:
        with path.open("r+b") as file:
            self._shared = mmap.mmap(file.fileno(), COUNTER.size)

    @property
    def count(self) -> int:
        return int(COUNTER.unpack_from(self._shared)[0])

    def add(self) -> None:
        COUNTER.pack_into(self._shared, 0, self.count + 1)

    def monotonic(self) -> float:
        return self.count * LOOK_S

    @classmethod
    def made_at(cls, path: Path) -> Looks:
        path.write_bytes(bytes(COUNTER.size))
        return cls(path)


class CountedPort:
    """A port whose looks in vain are counted."""

    def __init__(self, port: SerialPort, looks: Looks) -> None:
        self._port, self._looks = port, looks
        self.write, self.close = port.write, port.close

    def read(self, size: int) -> bytes:
        data = self._port.read(size)
        if not data:
            self._looks.add()
        return data


def run(path: Path, words: list[str]) -> int:
    looks = Looks(path)
    port.READ_S, port.ANSWER_S = SHORT_S, float(HANGS_S)
    bench_session.time = bench_events.time = SimpleNamespace(monotonic=looks.monotonic)
    bench_session.open_port = lambda name: CountedPort(open_port(name), looks)
    return main(words)


if __name__ == "__main__":
    sys.exit(run(Path(sys.argv[1]), sys.argv[2:]))
