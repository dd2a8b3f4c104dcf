"""The RP2040's USB controller as a device, with a host at the other end that asks when it wants to.

rp2040py's own controller takes a packet as soon as the firmware gives it, and never answers NAK.
Here a packet waits in its buffer until the host asks for it. What the datasheet (section 4.1) says
the controller does to buffers, flags and STALL is done here; what it says of the processor is
checked: AVAILABLE set last, data toggles as the host's, no buffer written that is the controller's.
"""

from __future__ import annotations

from collections.abc import Callable

from rp2040py.peripherals import usb
from rp2040py.rp2040 import RP2040

from tests.emulators.rp2040.clocks import USB_GATES
from tests.emulators.rp2040.judge import at_attach
from tests.emulators.usb_host import Stall

FULL, DATA1, BUFFER_STALL, AVAILABLE = 1 << 15, 1 << 13, 1 << 11, 1 << 10
LENGTH = 0x3FF
BUFFER_CONTROLS = range(0x80, 0x100)
ENDPOINT_ENABLE, STATUS_PER_BUFFER = 1 << 31, 1 << 29
SETTLE_CYCLES = 12
"""AVAILABLE after the rest (section 4.1.2.5.1): what the chip maker's code waits at 125 MHz."""

FLASH = 0x10000000
CLEAR_FEATURE, SET_CONFIGURATION, SET_INTERFACE = 1, 9, 11
RECEIVING = 3
"""The endpoint that a serial port receives with; 1 is what it and a keyboard send with."""

FRAME_NS = 1_000_000
ABORT_NS = 2000
"""Until a buffer is given back: chosen here, some bytes on the bus."""


class Cable(usb.RPUSBController):
    """The controller of `chip`, and the cable's end that a host holds."""

    def __init__(self, chip: RP2040) -> None:
        super().__init__(chip, "USB")
        self.attached = 0
        self.pads = {usb.USB_MUXING: 0, usb.USB_PWR: 0}
        self.wakes = 0
        self.suspended_is_a_level = False
        self.may_be_too_long = False  # the next packet to the device
        self.faults: list[str] = []
        self.on_given: Callable[[int], None] = lambda buffer: None
        self.on_prepared: Callable[[int], None] = lambda buffer: None
        self.on_stall: Callable[[], None] = lambda: None
        self._asleep_since: int | None = None
        self._toggles: dict[int, bool] = {}
        self._restart: tuple[int, ...] = ()  # buffers
        self.has_abort = True  # from revision B2 on
        self._armed: set[int] = set()
        self._aborted: dict[int, float] = {}
        self._words: dict[int, tuple[int, int]] = {}
        self._frames = chip.clock.create_alarm(self._frame_begins)
        self._frames.schedule(FRAME_NS)

    def reset(self) -> None:
        super().reset()
        self.pads = dict.fromkeys(self.pads, 0)
        self._armed.clear()
        self._aborted.clear()

    # --- the firmware's side ---------------------------------------------------------------------

    def read_uint32(self, offset: int) -> int:
        if offset == usb.SOF_RD:  # reading it clears the interrupt (section 4.1.4, INTR)
            self._start_of_frame(False)
            return self._frame() & 0x7FF
        if offset == usb.EP_ABORT_DONE:
            self._end_aborts()
        return int(super().read_uint32(offset))

    def write_uint32(self, offset: int, value: int) -> None:
        if offset == usb.EP_STALL_ARM and value:
            self.on_stall()
        if offset in self.pads:
            self.pads[offset] = value
        before, aborts = self._sie_ctrl, self._ep_abort
        done = self._ep_abort_done
        super().write_uint32(offset, value)
        if offset == usb.EP_ABORT:
            self._ep_abort_done = done
            self._abort(value & ~aborts)
        if offset == usb.SIE_CTRL:
            risen = value & ~before
            if risen & usb.SIE_CTRL_PULLUP_EN:
                self._attach()
            self.wakes += bool(risen & usb.SIE_CTRL_RESUME)
            self._sie_ctrl &= ~usb.SIE_CTRL_RESUME
        elif offset == usb.SIE_STATUS and not self.suspended_is_a_level:
            self._sie_status &= ~(self.raw_write_value & usb.SIE_SUSPENDED)

    def _attach(self) -> None:
        self.attached += 1
        if self.rp2040.core.pc >= FLASH:
            for wrong in at_attach(self.rp2040):
                self.rp2040.logger.warning("attached", wrong)

    def dpram_updated(self, offset: int, value: int) -> None:
        """Note a word of the block's memory that the firmware has written."""
        if offset % 4:
            self.faults.append(f"a word at {offset:#x}: a HardFault (ARMv6-M, section A3.2.1)")
        if offset not in BUFFER_CONTROLS:
            return
        self._check_owner((offset - 0x80) // 4, value)
        now = self.rp2040.core.cycles
        last, when = self._words.get(offset, (0, 0))
        self._words[offset] = (value, now)
        if value and not value & AVAILABLE:
            self.on_prepared((offset - 0x80) // 4)
        if value & AVAILABLE:
            by_rom = self.rp2040.core.pc < FLASH  # which runs at 48 MHz, and needs no pause
            in_time = last == value & ~AVAILABLE and now - when >= SETTLE_CYCLES
            if not by_rom and not in_time:
                self.faults.append(f"buffer {offset:#x}: AVAILABLE came with the rest, or too soon")
            self._armed.add((offset - 0x80) // 4)
            self.on_given((offset - 0x80) // 4)

    def _abort(self, buffers: int) -> None:
        """Promise to leave buffers alone, as soon as that is true (section 4.1.4, EP_ABORT)."""
        if buffers and not self.has_abort:
            self.faults.append("EP_ABORT before revision B2: erratum RP2040-E2")
        for buffer in range(32):
            if buffers >> buffer & 1:
                self._aborted[buffer] = self.rp2040.clock.nanos + ABORT_NS

    def _end_aborts(self) -> None:
        for buffer, when in self._aborted.items():
            if self._ep_abort >> buffer & 1 and self.rp2040.clock.nanos >= when:
                self._ep_abort_done |= 1 << buffer

    def _is_aborted(self, buffer: int) -> bool:
        over = self.rp2040.clock.nanos >= self._aborted.get(buffer, float("inf"))
        return over and bool(self._ep_abort >> buffer & 1)

    def _check_owner(self, buffer: int, value: int) -> None:
        """The firmware writes to a buffer: is it its own?"""
        if buffer not in self._armed or not self.pulled_up:
            return
        if self.has_abort and not self._is_aborted(buffer):
            self.faults.append(f"buffer {buffer} is written while it is the controller's")
        if not value & AVAILABLE:
            self._armed.discard(buffer)

    # --- the host's side -------------------------------------------------------------------------

    def reset_bus(self) -> None:
        self._asleep_since = None
        self._toggles.clear()
        over = usb.SIE_SUSPENDED if self.suspended_is_a_level else 0
        self._flag(usb.SIE_BUS_RESET, over)

    def suspend(self) -> None:
        self._asleep_since = self._frame()
        self._flag(usb.SIE_SUSPENDED, 0)

    def resume(self) -> None:
        self._asleep_since = None
        self._flag(usb.SIE_RESUME, usb.SIE_SUSPENDED)

    def setup(self, packet: bytes) -> None:
        self.rp2040.usb_dpram[:8] = packet
        self._ep_stall_arm = 0  # section 4.1.2.5.4: a SETUP ends the STALL
        self._toggles[0] = self._toggles[1] = True
        resets = packet[1] in (SET_CONFIGURATION, SET_INTERFACE) and packet[0] in (0, 1)
        if packet[:2] == bytes([2, CLEAR_FEATURE]):
            self._restart = (2 * (packet[4] & 0x0F) + (packet[4] < 0x80),)
        else:
            self._restart = (2, 2 * RECEIVING + 1) if resets else ()
        self._flag(usb.SIE_SETUP_REC, 0)

    @property
    def pulled_up(self) -> bool:
        return bool(self._sie_ctrl & usb.SIE_CTRL_PULLUP_EN)

    @property
    def setup_waits(self) -> bool:
        return bool(self._sie_status & usb.SIE_SETUP_REC)

    def kind_of(self, buffer: int) -> int:
        """Return an open endpoint's type, as in its descriptor: USB 2.0 table 9-13.

        Datasheet, table of the endpoint control register: 2 bulk, 3 interrupt in bits 27 and 26.
        """
        return self._word(4 * buffer) >> 26 & 3

    def take(self, endpoint: int) -> bytes | None:
        """Ask for a packet; None is NAK. Raises `Stall`."""
        buffer = 2 * endpoint
        control = self._control(buffer, endpoint)
        if control is None or not control & AVAILABLE:
            return None
        assert control & FULL, f"endpoint {endpoint} gives a buffer that is not full"
        start = self._start(buffer)
        data = bytes(self.rp2040.usb_dpram[start : start + (control & LENGTH)])
        self._done(buffer, control & ~(AVAILABLE | FULL), bool(control & DATA1))
        if endpoint == 0 and not data:
            self._toggles |= dict.fromkeys(self._restart, False)
            self._restart = ()
        return data

    def put(self, endpoint: int, data: bytes) -> bool:
        """Send a packet; False is NAK. Raises `Stall`."""
        buffer = 2 * endpoint + 1
        control = self._control(buffer, endpoint)
        if control is None or not control & AVAILABLE:
            return False
        assert not control & FULL
        assert len(data) <= control & LENGTH or self.may_be_too_long
        start = self._start(buffer)
        self.rp2040.usb_dpram[start : start + len(data)] = data
        control = control & ~(AVAILABLE | LENGTH) | FULL | len(data)
        self._done(buffer, control, bool(control & DATA1))
        return True

    # --- inside ----------------------------------------------------------------------------------

    def _frame_begins(self) -> None:
        self._frames.schedule(FRAME_NS)
        seen = self.pulled_up and not self.rp2040.clocks.sleeps(USB_GATES)
        if self._asleep_since is None and seen:
            self._start_of_frame(True)

    def _start_of_frame(self, began: bool) -> None:
        flag = usb.INTR_DEV_SOF
        self._int_raw = self._int_raw | flag if began else self._int_raw & ~flag
        self.check_interrupts()

    def _frame(self) -> int:
        if self._asleep_since is not None:
            return self._asleep_since
        return int(self.rp2040.clock.nanos) // FRAME_NS

    def _flag(self, raised: int, lowered: int) -> None:
        if self.rp2040.clocks.sleeps(USB_GATES):
            return
        self._sie_status = self._sie_status & ~lowered | raised
        self._sie_status_updated()

    def _word(self, offset: int) -> int:
        return int.from_bytes(self.rp2040.usb_dpram[offset : offset + 4], "little")

    def _control(self, buffer: int, endpoint: int) -> int | None:
        """The buffer's control word, or None where the endpoint is not open. Raises `Stall`."""
        control = self._word(0x80 + 4 * buffer)
        if self._ep_abort >> buffer & 1:
            return None
        if endpoint and not self._word(4 * buffer) & ENDPOINT_ENABLE:
            return None
        armed = endpoint or self._ep_stall_arm >> buffer & 1
        if control & BUFFER_STALL and armed:
            raise Stall(f"endpoint {endpoint}")
        return control

    def _start(self, buffer: int) -> int:
        return self._word(4 * buffer) & 0xFFC0 if buffer > 1 else 0x100

    def _done(self, buffer: int, control: int, data1: bool) -> None:
        expected = self._toggles.get(buffer, False)
        assert data1 == expected, (
            f"buffer {buffer} is DATA{data1:d}, the host is at DATA{expected:d}"
        )
        self._toggles[buffer] = not expected
        self._armed.discard(buffer)
        offset = 0x80 + 4 * buffer
        self.rp2040.usb_dpram[offset : offset + 4] = control.to_bytes(4, "little")
        if buffer > 1:
            tells = self._word(4 * buffer) & STATUS_PER_BUFFER
        else:
            tells = self._sie_ctrl & usb.SIE_CTRL_EP0_INT_1BUF
        if tells:
            self._buff_status |= 1 << buffer
            self._buff_status_updated()
