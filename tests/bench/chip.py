"""What the firmware costs on the emulated chips: `python -m tests.bench.chip`.

An 8 x 8 matrix, 64 keys, 4 layers, by both compilers: on libsimavr's ATmega32U4 at 16 MHz and on
rp2040py's RP2040 at 125 MHz. Times are counted in cycles of the emulated chip, not of silicon.
References in the same run: the part of a scan that is spent waiting for the lines to settle, which
no firmware can save, and a USB frame of 1,000 us, the shortest time in which a full-speed host asks
for a report (USB 2.0 section 5.7.4). "Asleep" is the part of the time in which the core waits while
the bus is suspended.
"""

from __future__ import annotations

import random
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from matrixgen.boards import Mounted, builtin_profile
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import FAMILIES, CompilerKind
from matrixgen.source import read_design
from matrixgen.toolchain import Image, compile_tree, find_compiler
from tests.bench.synthetic import keyboard_text
from tests.emulators.avr.board import AvrBoard
from tests.emulators.avr.board import board as avr_board
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.rp2040.board import board as rp2040_board
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import COMPILERS

SOURCE = "bench.keys"
BOARDS = {"avr": avr_board, "rp2040": rp2040_board}
PINS = {
    "atmega32u4": [
        *("PF0", "PF1", "PF4", "PF5", "PF6", "PF7", "PC6", "PC7"),
        *("PB0", "PB1", "PB2", "PB3", "PD0", "PD1", "PD4", "PD5"),
    ],
    "rp2040": [f"GPIO{number}" for number in range(16)],
}
PHASES = {"avr": 1000, "rp2040": 200}
LAYERS = """
layer one
  K0 = F1  K1 = Shift+1  K2 = Ctrl+C
layer two
  K0 = F2  K1 = Up
layer three
  K0 = F3  K1 = Down
actions
  hold-one    = hold layer one
  latch-two   = latch layer two
  latch-three = latch layer three
"""
TIMES = f"{'loop':>6} {'median':>7} {'worst':>6} {'asleep':>7}"
KEYS = [f"K{number}" for number in range(61)]


@dataclass(frozen=True)
class Row:
    """One line of the table; times in us."""

    title: str
    flash: int
    ram: int
    scan: float
    settling: int
    turn: float
    median: float
    worst: float
    asleep: float


def sixty_four_keys(controller: str) -> Mounted:
    text = keyboard_text(8, 8, PINS[controller]).replace("atmega32u4", controller) + LAYERS
    text = text.replace("K61 = F", "K61 = hold-one").replace("K62 = G", "K62 = latch-two")
    design, findings = read_design(SOURCE, text.replace("K63 = H", "K63 = latch-three"))
    profile = builtin_profile(controller)
    assert design is not None and profile is not None, findings
    assert len(design.keyboard.layers) == 4
    (mounting,) = design.mountings
    return Mounted(design.keyboard, mounting, profile)


def compiled(view: FirmwareView, kind: CompilerKind) -> tuple[str, Image]:
    compiler = find_compiler(kind, FAMILIES[view.port])
    assert compiler is not None
    made = compile_tree(firmware_tree(view), view.chip, compiler)
    assert isinstance(made, Image), made.output
    return compiler.title, made


def latencies(chip: AvrBoard | Rp2040Board, phases: int, keys: Sequence[str] = KEYS) -> list[float]:
    """Return, in us, the time from a switch's closure to its report in the endpoint, many times."""
    host = UsbHost(chip)
    host.enumerate()
    host.set_idle(0)
    host.poll(5)
    chance = random.Random(1)
    taken = []
    for _ in range(phases):
        chip.run(chance.randrange(chip.cycles_per_ms))
        key = chance.choice(keys)
        before = chip.cycles
        chip.close_key(key)
        armed = chip.until_report()
        assert armed is not None
        taken.append((armed - before) * 1000 / chip.cycles_per_ms)
        host.poll(1)
        chip.open_key(key)
        host.poll(8)
    return taken


def share_asleep(chip: AvrBoard | Rp2040Board) -> float:
    """Return the part of the time in which the core waits while the bus is suspended."""
    chip.suspend()
    chip.wait(50)
    before, slept = chip.cycles, chip.slept
    chip.wait(500)
    return (chip.slept - slept) / (chip.cycles - before)


def measured(mounted: Mounted, kind: CompilerKind) -> Row:
    view = firmware_view(mounted, SOURCE)
    title, made = compiled(view, kind)
    with BOARDS[view.port](made, mounted) as chip:
        taken = latencies(chip, PHASES[view.port])
        cycles = chip.scan_cycles(mounted)
        asleep = share_asleep(chip)
    scan, turn = (each * 1000 / chip.cycles_per_ms for each in cycles)
    settling = view.settle_us * (len(view.drives) - 1)  # the last line's is not in a scan's time
    median = statistics.median(taken)
    size = made.flash_used, made.ram_used
    return Row(title, *size, scan, settling, turn, median, max(taken), asleep)


def show(controller: str, row: Row) -> None:
    print(
        f"{controller:<11} {row.title:<26} {row.flash:>6,} {row.ram:>5} "
        f"{row.scan:>6.1f} {row.settling:>9} {row.turn:>6.1f} {row.median:>7.1f} {row.worst:>6.1f} "
        f"{row.asleep:>7.2%}"
    )


def main() -> None:
    print("8 x 8 matrix, 64 keys, 4 layers; emulated. Flash and RAM in bytes, times in us")
    print(f"{'':<46} {'':>5} {'whole':>6} {'of which':>9} {'main':>6}  closure to report")
    print(
        f"{'chip':<11} {'compiler':<26} {'flash':>6} {'RAM':>5} {'scan':>6} {'settling':>9} "
        + TIMES
    )
    for controller in PINS:
        for kind in COMPILERS:
            show(controller, measured(sixty_four_keys(controller), kind))
    phases = " and ".join(f"{number:,} ({name})" for name, number in PHASES.items())
    print(f"closures at random phases: {phases}; a USB frame is 1,000 us")


if __name__ == "__main__":
    main()
