"""What the bench's image costs on the emulated chips: `python -m tests.bench.bench_image`.

Flash and RAM by both compilers; the stack's deepest use; and how long after a path is closed its
line waits for the host. Times are counted in cycles of the emulated chip, not of silicon.
References: the 5 ms that a pair has to last, and, as "waits", the part of a turn through all pins
that is spent waiting for them to settle.
"""

from __future__ import annotations

import statistics

from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard, pin_number
from tests.emulators.keyboards import profile
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.serial_host import SerialHost
from tests.emulators.test_bench import BUILDS, built, view_of

PHASES = 40


def board_of(chip: str, image: Image) -> AvrBoard | Rp2040Board:
    if chip == "rp2040":
        return Rp2040Board(image.flash)
    return AvrBoard(image, profile(chip))


def latencies(board: AvrBoard | Rp2040Board, host: SerialHost) -> list[float]:
    """Return milliseconds from closing a path, at some moment of a turn, to its line."""
    found = []
    for phase in range(PHASES):
        board.run(phase * board.cycles_per_ms // 23)
        start = board.cycles
        board.close_key("path")
        when = board.until_report(30)
        assert when is not None
        found.append((when - start) / board.cycles_per_ms)
        host.hear(1)
        board.open_key("path")
        host.hear(20)
    return found


def main() -> None:
    print("chip         by     pins  flash  RAM stack   waits  median  worst")
    for chip, kind in BUILDS:
        image, view = built(chip, kind), view_of(chip)
        board = board_of(chip, image)
        pins = [pin_number(line.pin) for line in view.drives]
        board.solder({"path": ((pins[0], pins[-1]),)})
        host = SerialHost(board)
        host.plug_in()
        host.set_dtr(True)
        host.until_ready()
        times = latencies(board, host)
        stack = "-"
        if isinstance(board, AvrBoard):
            end = 0x100 + image.ram_used
            stack = str(profile(chip).ram_bytes - image.ram_used - board.ram_untouched(end))
        waits = len(pins) * (view.low_ns / 1000 + view.settle_us) / 1000
        print(
            f"{chip:12} {kind:6} {len(pins):4} {image.flash_used:6} {image.ram_used:4} {stack:>5} "
            f"{waits:4.2f} ms {statistics.median(times):4.1f} ms {max(times):3.1f} ms"
        )
        board.close()


if __name__ == "__main__":
    main()
