"""The RP2040's oscillators, PLLs, clock gates and ticks, which rp2040py has ready at once or not.

Datasheet sections 2.15 to 2.18 and 4.7.2. A crystal counts as good only when it has reached its
full swing, whatever the chip's own counter says; crystal and PLLs may be late, or never come.
"""

from __future__ import annotations

from collections.abc import Callable

from rp2040py.peripherals import clocks, watchdog, xosc
from rp2040py.peripherals.peripheral import BasePeripheral
from rp2040py.peripherals.timer import TIMERAWL, RPTimer
from rp2040py.rp2040 import RP2040

CRYSTAL_HZ = 12_000_000
RING_HZ = 6_500_000
USB_HZ = 48_000_000
NS_A_CYCLE = 8
SWING_MS = 40
"""Longer than the recommended crystal needs (some 6 ms), since boards have others."""

LOCK_US = 20
DIVIDERS_OFF = 1 << 3
WAIT_SHARE_NS = 500_000
FOREVER = float("inf")

SLEEP_EN0, SLEEP_EN1 = 0xA8, 0xAC
TIMER_GATE, WATCHDOG_GATE, USB_GATES = 1 << 5, 1 << 12, 3 << 10
"""Bits of SLEEP_EN1 (section 2.15.7), as in the maker's table."""


def pass_time(chip: RP2040, nanos: float) -> None:
    """Let time go by in which the core does nothing but look at a flag."""
    chip.core.cycles += int(nanos) // NS_A_CYCLE
    chip.clock.tick(nanos)


class Crystal(xosc.RPXOSC):
    """Stable when it has swung for STARTUP times 256 periods; good when it has its full swing."""

    def __init__(self, chip: RP2040, name: str) -> None:
        super().__init__(chip, name)
        self.starts_after_ms = 0.0  # FOREVER for one that never does
        self.swing_ms: float = SWING_MS
        self.since = FOREVER

    def reset(self) -> None:
        super().reset()
        self.since = FOREVER

    @property
    def age_ns(self) -> float:
        """How long it has swung."""
        return float(self.rp2040.clock.nanos - self.since - self.starts_after_ms * 1e6)

    @property
    def is_stable(self) -> bool:
        counted = (self._startup & xosc.STARTUP_DELAY_BITS) * 256 * 1e9 / CRYSTAL_HZ
        return self.age_ns >= counted

    @property
    def is_good(self) -> bool:
        return self.age_ns >= self.swing_ms * 1e6

    def read_uint32(self, offset: int) -> int:
        if offset == xosc.XOSC_STATUS:
            if self._enabled and not self.is_stable:
                pass_time(self.rp2040, WAIT_SHARE_NS)
            self._stable = self._enabled and self.is_stable
        return int(super().read_uint32(offset))

    def write_uint32(self, offset: int, value: int) -> None:
        was_on = self._enabled
        super().write_uint32(offset, value)
        if self._enabled and not was_on:
            self.since = self.rp2040.clock.nanos
        elif not self._enabled:
            self.since = FOREVER


class Pll(BasePeripheral):
    """Locks some time after it was powered; its rate follows from its registers."""

    def __init__(self, chip: RP2040, name: str) -> None:
        super().__init__(chip, name)
        self.lock_us: float = LOCK_US
        self.reset()

    def reset(self) -> None:
        self.words = {0x0: 1, 0x4: 0x2D, 0x8: 0, 0xC: 0x77000}
        self.since = FOREVER

    @property
    def is_on(self) -> bool:
        return not self.words[0x4] & (1 << 0 | 1 << 5)

    @property
    def is_locked(self) -> bool:
        return bool(self.rp2040.clock.nanos - self.since >= self.lock_us * 1000)

    @property
    def vco_hz(self) -> float:
        """The oscillator's rate, 0 while it is off or has not locked."""
        rate = CRYSTAL_HZ / (self.words[0] & 0x3F) * self.words[0x8]
        return rate if self.is_locked else 0

    @property
    def hertz(self) -> float:
        """The rate behind the dividers, 0 while they are off."""
        prim = self.words[0xC]
        divided = self.vco_hz / ((prim >> 16 & 7) * (prim >> 12 & 7))
        return 0 if self.words[0x4] & 1 << 3 else divided

    def read_uint32(self, offset: int) -> int:
        if offset == 0 and self.is_on and not self.is_locked:
            pass_time(self.rp2040, min(self.lock_us * 1000, WAIT_SHARE_NS))
        return self.words[offset] | (1 << 31 if offset == 0 and self.is_locked else 0)

    def write_uint32(self, offset: int, value: int) -> None:
        was_on = self.is_on
        self._judge(offset, value)
        self.words[offset] = value & 0x7FFFFFFF
        if not self.is_on:
            self.since = FOREVER
        elif not was_on:
            self.since = self.rp2040.clock.nanos

    def _judge(self, offset: int, value: int) -> None:
        """Section 2.18.3: rates while it is off, and the dividers once it has locked."""
        changed = (value ^ self.words[offset]) & 0x7FFFFFFF
        divides = not self.words[0x4] & DIVIDERS_OFF
        if self.is_on and changed and offset in (0x0, 0x8):
            self.rp2040.logger.warning(self.name, "another rate while it is on")
        if offset == 0x4 and changed & ~value & DIVIDERS_OFF and not self.is_locked:
            self.rp2040.logger.warning(self.name, "its dividers are on before it has locked")
        if offset == 0xC and changed and divides:
            self.rp2040.logger.warning(self.name, "other dividers while they are on")


MUXES = {
    clocks.CLK_REF_CTRL: (3, 3 << 5, clocks.CLK_REF_SELECTED),
    clocks.CLK_SYS_CTRL: (1, 7 << 5, clocks.CLK_SYS_SELECTED),
}
"""Of a register: the bits of the glitchless mux, those of the auxiliary one, and where to look."""

AUXILIARY = 1


class Clocks(clocks.RPClocks):
    """What clk_ref and clk_sys run at, and which clocks stop while the core sleeps."""

    def __init__(self, chip: RP2040, crystal: Crystal, plls: dict[str, Pll]) -> None:
        super().__init__(chip, "CLOCKS_BASE")
        self.crystal, self.plls = crystal, plls
        self.ring_hz = RING_HZ
        self.changed: Callable[[], None] = lambda: None
        self.reset()

    def reset(self) -> None:
        super().reset()
        self._unasked = 0  # where to look for a mux that changes over
        self.sleep_en = {SLEEP_EN0: 0xFFFFFFFF, SLEEP_EN1: 0x7FFF}

    @property
    def reference_hz(self) -> float:
        """The rate of clk_ref, which the watchdog's tick is made from."""
        crystal = CRYSTAL_HZ if self.crystal.age_ns >= 0 else 0
        return (self.ring_hz, self._auxiliary(self.ref_ctrl, "USB"), crystal, 0)[self.ref_ctrl & 3]

    @property
    def core_hz(self) -> float:
        """The rate of clk_sys."""
        return (
            self._auxiliary(self.sys_ctrl, "SYS", "USB") if self.sys_ctrl & 1 else self.reference_hz
        )

    @property
    def usb_hz(self) -> float:
        """The rate of clk_usb, which has no glitchless mux."""
        return self._auxiliary(self.usb_ctrl, "USB", "SYS") / (self.usb_div >> 8 or 1)

    def _auxiliary(self, control: int, *plls: str) -> float:
        chosen = control >> 5 & 7
        return self.plls[plls[chosen]].hertz if chosen < len(plls) else 0

    def sleeps(self, gates: int) -> bool:
        """Return whether the core sleeps, and these clocks of SLEEP_EN1 with it."""
        return bool(self.rp2040.core.waiting and self.sleep_en[SLEEP_EN1] & gates != gates)

    def read_uint32(self, offset: int) -> int:
        if offset in self.sleep_en:
            return self.sleep_en[offset]
        if offset == self._unasked:
            self._unasked = 0
        return int(super().read_uint32(offset))

    def write_uint32(self, offset: int, value: int) -> None:
        if offset in self.sleep_en:
            self.sleep_en[offset] = value
        else:
            self._judge(offset, value)
            super().write_uint32(offset, value)
            self.changed()

    def _judge(self, offset: int, value: int) -> None:
        """Section 2.15.3.2: auxiliary muxes glitch; the others say when they have changed over."""
        warn = self.rp2040.logger.warning
        if self._unasked:
            warn("CLOCKS", "written before SELECTED told that a mux has changed over")
            self._unasked = 0
        if offset not in MUXES:
            return
        glitchless, auxiliary, self_selected = MUXES[offset]
        before = self.read_uint32(offset)
        if before & glitchless == AUXILIARY and (before ^ value) & auxiliary:
            warn("CLOCKS", "an auxiliary mux is turned while a clock runs from it")
        if (before ^ value) & glitchless:
            self._unasked = self_selected


class Watchdog(watchdog.RPWatchdog):
    """It counts ticks, and those are made from clk_ref; erratum RP2040-E1: two a tick."""

    def __init__(self, chip: RP2040, name: str) -> None:
        super().__init__(chip, name)
        self.cycles_a_tick = 1

    @property
    def tick_hz(self) -> float:
        return float(self.rp2040.clocks.reference_hz / self.cycles_a_tick)

    def write_uint32(self, offset: int, value: int) -> None:
        if offset == watchdog.TICK:
            self.cycles_a_tick = value & watchdog.CYCLES_MASK or 1
            self.clock_changed()
        super().write_uint32(offset, value)

    def clock_changed(self) -> None:
        """Go on from where the counter is, at another rate."""
        left = self.timer.counter
        self.timer._base_freq = 2 * self.tick_hz
        self.timer.set(left)


class Timer(RPTimer):
    """It counts the same ticks, which must be microseconds, and stops if its gate is shut."""

    def read_uint32(self, offset: int) -> int:
        chip = self.rp2040
        if offset == TIMERAWL and chip.core.pc >= 0x10000000:
            off = abs(chip.watchdog.tick_hz - 1e6)
            if off > 1e4:
                chip.logger.warning("TIMER", f"a tick is wrong by {off:g} Hz")
        return int(super().read_uint32(offset))

    def _fire_alarm(self, index: int) -> None:
        if not self.rp2040.clocks.sleeps(TIMER_GATE):
            super()._fire_alarm(index)
