"""An RP2040 keyboard on rp2040py: its chip, its switches, and its end of the USB cable."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager

from rp2040py.execute_batch import execute_batch
from rp2040py.peripherals.vreg_and_chip_reset import HAD_POR, HAD_RUN
from rp2040py.rp2040 import RP2040

from matrixgen.boards import Mounted
from matrixgen.model import matrix_of
from matrixgen.toolchain import Image
from tests.emulators.avr.board import Conduction, conduction_paths, line_pin
from tests.emulators.rp2040.blocks import FLASH
from tests.emulators.rp2040.cable import Cable
from tests.emulators.rp2040.chip import B2, make_chip, skip_delays
from tests.emulators.rp2040.clocks import NS_A_CYCLE, WATCHDOG_GATE
from tests.emulators.rp2040.judge import resets_the_core

HERTZ = 125_000_000
ATTACH_MS = 100
"""USB 2.0 section 7.1.7.3: in which a device shows itself after the bus has power."""


class Rp2040Board:
    """A chip with a firmware, running from power-on; a `Transport` for `UsbHost`."""

    cycles_per_ms = HERTZ // 1000

    def __init__(
        self,
        flash: bytes,
        *,
        every_cycle: bool = False,
        revision: int = B2,
        before_power: Callable[[RP2040], None] = lambda chip: None,
    ) -> None:
        self.rp2040 = make_chip(flash, revision)
        before_power(self.rp2040)
        if not every_cycle:
            skip_delays(self.rp2040, len(flash))
        self.clock = self.rp2040.clock
        self.share = 1.0
        self.stopped = False  # execute_batch() reads it before each instruction
        self.cable: Cable = self.rp2040.usb_ctrl
        self._pios, self.rp2040.pio = self.rp2040.pio, []  # unused, but asked at each instruction
        self._alarm = self.clock.create_alarm(self._stop)
        self._slept_before = 0
        self._cycles_before = 0
        self.rp2040.watchdog.on_watchdog_trigger = self._watchdog_reset
        self.rp2040.on_run_pin_reset = lambda: None  # the boot ROM first, as the core's reset does
        self.resets = 0
        self.until_attached()

    def until_attached(self, patience_ms: int = ATTACH_MS) -> None:
        """Run until the chip shows itself to the host, or patience is over."""
        before = self.cable.attached
        for _ in range(patience_ms):
            self.run(self.cycles_per_ms)
            if self.cable.attached > before:
                return

    def close(self) -> None:
        """Nothing is left behind."""

    # --- switches --------------------------------------------------------------------------------

    def wire(self, mounted: Mounted) -> None:
        """Solder a keyboard's switches and diodes to the chip's pins."""
        self.solder(conduction_paths(mounted))

    def solder(self, paths: Mapping[str, tuple[Conduction, ...]]) -> None:
        """Solder switches to the pins: for each, from which to which its current can flow."""
        self._paths = paths
        self._closed: set[str] = set()

    def close_key(self, name: str) -> None:
        self._closed.add(name)
        self._switch()

    def open_key(self, name: str) -> None:
        self._closed.discard(name)
        self._switch()

    def _switch(self) -> None:
        self.rp2040.sio.close(path for key in self._closed for path in self._paths[key])

    def hold(self, pin: int, held: bool = True) -> None:
        """Solder the supply to a pin, or take it off."""
        self.rp2040.sio.hold(pin, held)

    def driven(self, pin: int) -> bool | None:
        """Return whether a pin is driven high or low; None where it is an input."""
        one = self.rp2040.gpio[pin]
        return bool(one.output_value) if one.output_enable else None

    def ground(self, pin: int, grounded: bool) -> None:
        """Join a pin to ground, as a contact of a knob does, or let it go."""
        self.rp2040.sio.ground(pin, grounded)

    def burden(self, pin: int, microseconds: float) -> None:
        """Let a pin take so long to rise, as one with a light or a resistor does."""
        self.rp2040.sio.burden[pin] = int(microseconds * self.cycles_per_ms / 1000)

    # --- time ------------------------------------------------------------------------------------

    def run(self, cycles: int) -> None:
        """Run for so many cycles, give or take an instruction, or until something stops it."""
        self.stopped = False
        self._alarm.schedule(cycles * NS_A_CYCLE)
        while not self.stopped:
            execute_batch(self, 1)
        self._alarm.cancel()
        assert not self.cable.faults, self.cable.faults
        assert not self.complaints, self.complaints

    def _stop(self) -> None:
        self.stopped = True

    def wait(self, milliseconds: float) -> None:
        """Let time pass. Of each millisecond the core may be held up for a part: `share`."""
        cycles = int(milliseconds * self.cycles_per_ms)
        while cycles > 0:
            part = cycles if self.share == 1 else min(cycles, self.cycles_per_ms)
            self.run(int(part * self.share))
            self.clock.tick((part - int(part * self.share)) * NS_A_CYCLE)
            cycles -= part

    @property
    def cycles(self) -> int:
        """Cycles of 8 ns since power-on, asleep or awake."""
        return int(self.clock.nanos) // NS_A_CYCLE

    @property
    def slept(self) -> int:
        """Cycles in which the core waited."""
        return self.cycles - self._cycles_before - self.rp2040.core.cycles + self._slept_before

    def until_report(self, patience_ms: float = 20) -> int | None:
        """Run until a report waits in the endpoint; return the cycle at which it got there."""
        found: list[int] = []

        def given(buffer: int) -> None:
            if buffer == 2:  # endpoint 1 to the host
                found.append(self.cycles)
                self.stopped = True

        self.cable.on_given = given
        self.run(int(patience_ms * self.cycles_per_ms))
        self.cable.on_given = lambda buffer: None
        return found[0] if found else None

    def scan_cycles(self, mounted: Mounted) -> tuple[int, int]:
        """Return the cycles of one whole scan of the matrix, and of one turn of the main loop."""
        drives = matrix_of(mounted.keyboard).drives
        first, last = (1 << line_pin(line, mounted) for line in (drives[0], drives[-1]))
        seen: list[tuple[int, bool, int]] = []
        self.rp2040.sio.on_drive = lambda pins, low: seen.append((pins, low, self.cycles))
        self.wait(2)
        self.rp2040.sio.on_drive = lambda pins, low: None
        starts = [when for pins, low, when in seen if low and pins == first]
        ends = [when for pins, low, when in seen if not low and pins == last]
        assert len(starts) > 3 and len(ends) > 3, "the firmware does not scan"
        start, again = starts[1:3]
        return next(end for end in ends if end > start) - start, again - start

    # --- the cable -------------------------------------------------------------------------------

    def reset(self) -> None:
        self.cable.reset_bus()
        self.wait(10)

    def setup(self, packet: bytes) -> None:
        self.cable.setup(packet)
        for _ in range(1000):
            self.run(self.cycles_per_ms // 100)
            if not self.cable.setup_waits:
                return
        raise AssertionError("the firmware does not look at its SETUP packets")

    def in_(self, endpoint: int) -> bytes | None:
        return self.cable.take(endpoint)

    def out(self, endpoint: int, data: bytes) -> bool:
        return self.cable.put(endpoint, data)

    def suspend(self) -> None:
        self.cable.suspend()

    def resume(self) -> None:
        self.cable.resume()

    # --- resets ----------------------------------------------------------------------------------

    def press_reset(self) -> None:
        """Pull RUN low and let it go."""
        self._whole_reset(HAD_RUN)

    def power_fails(self) -> None:
        """Let the supply fail for a moment: a power-on reset, but RAM has kept what it held."""
        self._whole_reset(HAD_POR)

    def _whole_reset(self, cause: int) -> None:
        """Reset all of the chip, the watchdog's memory of its own resets included."""
        self._into_reset(lambda: self.rp2040.set_run_pin(low=True))
        self.rp2040.watchdog.reset()
        self.rp2040.vreg_and_chip_reset.record_reset_cause(cause)
        self.rp2040.set_run_pin(low=False)

    def _watchdog_reset(self) -> None:
        if self.rp2040.clocks.sleeps(WATCHDOG_GATE) or not resets_the_core(self.rp2040):
            return
        self.resets += 1
        self._into_reset(lambda: self.rp2040.enter_reset(from_watchdog=True))

    def _into_reset(self, enter: Callable[[], None]) -> None:
        self._slept_before, self._cycles_before = self.slept, self.cycles
        self.rp2040.pio = self._pios
        enter()
        self.rp2040.pio = []
        self.rp2040.resets.hold_all()
        self.rp2040.sio.forget()

    def hang(self, address: int) -> None:
        """Let the program hang, in an endless jump at an unused flash address."""
        self.rp2040.flash[address : address + 2] = bytes.fromhex("fee7")
        self.rp2040.core.pc = FLASH + address

    # --- looking inside --------------------------------------------------------------------------

    @property
    def address(self) -> int:
        """The address that the chip answers to."""
        return int(self.cable.read_uint32(0)) & 0x7F

    def type_of(self, address: int) -> int:
        """Return an open endpoint's type, as its descriptor has it: USB 2.0 table 9-13."""
        return self.cable.kind_of(2 * (address & 0x0F) + (address < 0x80))

    @property
    def attached(self) -> int:
        """How often the chip has shown itself to the host."""
        return self.cable.attached

    @property
    def wakes(self) -> int:
        """How often the chip has signalled the host to wake up."""
        return self.cable.wakes

    @property
    def complaints(self) -> list[str]:
        """What the emulator found wrong with the firmware's accesses."""
        found: list[str] = self.rp2040.logger.complaints
        return found

    def pll_hertz(self, place: int) -> float:
        """Return the rate of the PLL at a place of `chip.PLACES`."""
        return float(self.rp2040.peripherals[place].block.hertz)


@contextmanager
def board(image: Image, mounted: Mounted, revision: int = B2) -> Iterator[Rp2040Board]:
    """Return a running board that `image` was made for; it goes at the end."""
    made = Rp2040Board(image.flash, revision=revision)
    made.wire(mounted)
    yield made
