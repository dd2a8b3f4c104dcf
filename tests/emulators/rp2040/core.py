"""The core's interrupts as silicon has them: latched by the NVIC, and a WFI that looks at them.

rp2040py forgets a pending interrupt when its line falls, ignores ICPR for lines of the hardware,
sleeps in a WFI even if one is pending, and enters handlers that PRIMASK masks. Here it is as in
Arm's Cortex-M0+ Devices Generic User Guide, section 4.2.6: an interrupt stays pending until its
handler is entered or ICPR is written; while its line is high it is pending again.
"""

from __future__ import annotations

from collections.abc import Callable

from rp2040py.cortex_m0_core import CortexM0Core
from rp2040py.peripherals.ppb import NVIC_ICPR, RPPPB, VTOR
from rp2040py.rp2040 import RP2040

FIRST_INTERRUPT = 16
DSB_WFI = bytes.fromhex("bff34f8f30bf")
WFI_BREAK = 0x30


def bind_once(owner: object, *names: str) -> None:
    """Make attributes of some of an object's methods, so that they are not bound anew at each use.

    rp2040py's compiled core looks at each instruction whether somebody has overridden them: without
    this, that is half of the time that a chip takes.
    """
    for name in names:
        setattr(owner, name, getattr(owner, name))


class LatchingCore(CortexM0Core):
    """A core whose pending interrupts outlive their lines."""

    def __init__(self, chip: RP2040) -> None:
        super().__init__(chip)
        self.lines = 0
        self.waits = 0
        self.waits_in_vain = 0
        bind_once(self, "execute_instruction")

    def set_interrupt(self, irq: int, value: bool) -> None:
        """Raise or lower the line of an interrupt."""
        risen = value and not self.lines >> irq & 1
        self.lines = self.lines | 1 << irq if value else self.lines & ~(1 << irq)
        if risen:
            self.pend(1 << irq)

    def pend(self, interrupts: int) -> None:
        """Let interrupts be pending, which ends a WFI if they are enabled."""
        self.pending_interrupts |= interrupts
        self.interrupts_updated = True
        if self._wakes:
            self.waiting = False

    def unpend(self, interrupts: int) -> None:
        """Do what a write to ICPR does: what still has its line high stays pending."""
        self.pending_interrupts = self.pending_interrupts & ~interrupts | self.lines

    def wait_for_interrupt(self) -> None:
        """Do what WFI does, also with PRIMASK set."""
        self.waits += 1
        self.waits_in_vain += self._wakes
        self.waiting = not self._wakes

    @property
    def _wakes(self) -> bool:
        return bool(self.pending_interrupts & self.enabled_interrupts)

    def check_for_interrupts(self) -> bool:
        if self.pm:
            self.interrupts_updated = False
            return False
        entered = bool(super().check_for_interrupts())
        if entered and self.ipsr >= FIRST_INTERRUPT:
            self.pending_interrupts &= ~(1 << self.ipsr - FIRST_INTERRUPT)
        return entered

    def exception_return(self, exc_return: int) -> None:
        super().exception_return(exc_return)
        self.pending_interrupts |= self.lines


class LatchingPpb(RPPPB):
    """The core's own registers, ICPR among them; `on_vectors` is called where VTOR is written."""

    def __init__(self, chip: RP2040, name: str) -> None:
        super().__init__(chip, name)
        self.on_vectors: Callable[[], None] = lambda: None

    def write_uint32(self, offset: int, value: int) -> None:
        if offset == NVIC_ICPR:
            self.rp2040.core.unpend(value)
        else:
            super().write_uint32(offset, value)
        if offset == VTOR:
            self.on_vectors()


def break_at_waits(chip: RP2040, size: int) -> None:
    """Make breakpoints of the firmware's WFIs, since rp2040py's own cannot be told what to do."""
    place = bytes(chip.flash[:size]).find(DSB_WFI)
    while place >= 0:
        chip.flash[place + 4 : place + 6] = bytes([WFI_BREAK, 0xBE])
        place = bytes(chip.flash[:size]).find(DSB_WFI, place)
