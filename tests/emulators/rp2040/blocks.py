"""What the emulator complains of, and blocks held in reset."""

from __future__ import annotations

from collections.abc import Callable

from rp2040py.peripherals.peripheral import Peripheral
from rp2040py.peripherals.reset import RPReset
from rp2040py.rp2040 import RP2040

FLASH = 0x10000000
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


class Gate:
    """A block that complains when it is used while in reset."""

    def __init__(self, block: Peripheral, bit: int, resets: Resets, log: Log) -> None:
        self.block, self.bit, self.resets, self.log = block, bit, resets, log

    def _check(self) -> None:
        if self.resets.held & self.bit:
            self.log.warning(type(self.block).__name__, "used while in reset")
        elif self.resets.unasked & self.bit:
            self.log.warning(type(self.block).__name__, "used before RESET_DONE was read")

    def read_uint32(self, offset: int) -> int:
        self._check()
        return self.block.read_uint32(offset)

    def write_uint32(self, offset: int, value: int) -> None:
        self._check()
        self.block.write_uint32(offset, value)

    def write_uint32_atomic(self, offset: int, value: int, kind: int) -> None:
        self._check()
        if offset % 4:
            self.log.warning(type(self.block).__name__, "a word over two (ARMv6-M, A3.2.1)")
        self.block.write_uint32_atomic(offset, value, kind)

    def reset(self) -> None:
        self.block.reset()


class Resets(RPReset):
    """Section 2.14: after power-on every block is held in reset; a held block loses its state."""

    def __init__(self, chip: RP2040) -> None:
        super().__init__(chip, "RESETS_BASE")
        self.held = ALL_BLOCKS
        self.unasked = 0  # released, and nobody has looked whether that is done
        self.blocks: dict[int, Callable[[], None]] = {}

    def reset(self) -> None:
        self.held = ALL_BLOCKS

    def hold_all(self) -> None:
        """Put every block into reset, as the whole chip's reset does."""
        self.held = ALL_BLOCKS
        for reset in self.blocks.values():
            reset()

    def read_uint32(self, offset: int) -> int:
        if offset == 0x8:
            self.unasked = 0
        return {0x0: self.held, 0x4: self.wdsel, 0x8: ~self.held & ALL_BLOCKS}[offset]

    def write_uint32(self, offset: int, value: int) -> None:
        super().write_uint32(offset, value)
        if offset == 0:
            risen = value & ~self.held
            self.unasked = (self.unasked | self.held) & ~value
            self.held = value & ALL_BLOCKS
            for bit, reset in self.blocks.items():
                if risen & bit:
                    reset()
