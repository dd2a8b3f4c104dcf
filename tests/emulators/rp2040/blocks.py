"""Blocks of the RP2040 that rp2040py leaves out or simplifies: PLLs, and blocks held in reset."""

from __future__ import annotations

from collections.abc import Callable

from rp2040py.peripherals.peripheral import BasePeripheral, Peripheral
from rp2040py.peripherals.reset import RPReset
from rp2040py.rp2040 import RP2040

FLASH = 0x10000000
CRYSTAL_HZ = 12_000_000
ALL_BLOCKS = 0x1FFFFFF
"""Of RESETS (datasheet section 2.14.3)."""


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
