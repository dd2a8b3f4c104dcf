"""What the firmware costs on the emulated chip: `python -m tests.bench.chip`.

An 8 x 8 matrix, 64 keys, 4 layers, ATmega32U4 at 16 MHz on libsimavr, by both compilers. Times are
counted in cycles of the emulated chip, not of silicon. References in the same run: the part of a
scan that is spent waiting for the lines to settle, which no firmware can save, and a USB frame of
1,000 us, the shortest time in which a full-speed host asks for a report (USB 2.0 section 5.7.4).
"""

from __future__ import annotations

import random
import statistics

from matrixgen.boards import Profile, builtin_profile
from matrixgen.emit.firmware_view import FirmwareView, firmware_view
from matrixgen.emit.render import firmware_tree
from matrixgen.model import Keyboard
from matrixgen.source import read_keyboard
from matrixgen.toolchain import Image, build, find_compiler
from tests.bench.synthetic import keyboard_text
from tests.emulators.avr import AvrBoard, board
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import COMPILERS

DRIVEN = ["PF0", "PF1", "PF4", "PF5", "PF6", "PF7", "PC6", "PC7"]
SENSED = ["PB0", "PB1", "PB2", "PB3", "PD0", "PD1", "PD4", "PD5"]
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
PHASES = 1000
CYCLES_A_US = 16


def sixty_four_keys() -> Keyboard:
    text = keyboard_text(8, 8, DRIVEN + SENSED) + LAYERS
    text = text.replace("K61 = J", "K61 = hold-one").replace("K62 = K", "K62 = latch-two")
    keyboard, findings = read_keyboard("bench.keys", text.replace("K63 = L", "K63 = latch-three"))
    assert keyboard is not None, findings
    assert len(keyboard.layers) == 4
    return keyboard


def compiled(view: FirmwareView, kind: str) -> Image:
    compiler = find_compiler("gcc" if kind == "gcc" else "clang")
    assert compiler is not None
    made = build(firmware_tree(view), view.chip, compiler)
    assert isinstance(made, Image), made.output
    print(f"\n{compiler.title}: {made.flash_used:,} B of flash, {made.ram_used} B of RAM")
    return made


def latencies(chip: AvrBoard, keys: list[str]) -> list[float]:
    """Return, in us, the time from a switch's closure to its report in the endpoint, many times."""
    host = UsbHost(chip)
    host.enumerate()
    host.set_idle(0)
    host.poll(5)
    chance = random.Random(1)
    taken = []
    for _ in range(PHASES):
        chip.run(chance.randrange(16_000, 48_000))
        key = chance.choice(keys)
        chip.close_key(key)
        before = chip.cycles
        armed = chip.until_report()
        assert armed is not None
        taken.append((armed - before) / CYCLES_A_US)
        host.poll(3)
        chip.open_key(key)
        host.poll(10)
    return taken


def measure(keyboard: Keyboard, profile: Profile, view: FirmwareView, kind: str) -> None:
    made = compiled(view, kind)
    with board(made, keyboard, profile) as chip:
        taken = sorted(latencies(chip, [f"K{number}" for number in range(61)]))
        scan, turn = (cycles / CYCLES_A_US for cycles in chip.scan_cycles(keyboard, profile))
    settling = view.settle_us * len(view.drives)
    print(f"  whole scan                   {scan:6.1f} us, of which settling {settling} us")
    print(f"  one turn of the main loop    {turn:6.1f} us")
    print(f"  closure to report, median    {statistics.median(taken):6.1f} us")
    print(f"  closure to report, worst     {taken[-1]:6.1f} us of {PHASES:,} random phases")
    print("  a USB frame                  1000.0 us")


def main() -> None:
    profile = builtin_profile("atmega32u4")
    assert profile is not None
    keyboard = sixty_four_keys()
    view = firmware_view(keyboard, profile)
    print("8 x 8 matrix, 64 keys, 4 layers, ATmega32U4 at 16 MHz, emulated")
    for kind in COMPILERS:
        measure(keyboard, profile, view, kind)


if __name__ == "__main__":
    main()
