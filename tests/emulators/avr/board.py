"""An AVR keyboard on libsimavr: its chip, its switches, and its end of the USB cable."""

from __future__ import annotations

import ctypes
import functools
import subprocess
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from matrixgen.boards import Mounted, Profile
from matrixgen.model import Diode, Line, matrix_of
from matrixgen.toolchain import Image
from tests.emulators.avr.leavings import Leavings, all_leavings
from tests.emulators.usb_host import Stall
from tests.made_once import made_once

HERE = Path(__file__).parent
NAK, STALL = -2, -3
ADDEN = 0x80
PIN_A = 0x20
"""The address of PINA; DDRA and PORTA follow it, and then the three of port B (7766 section 31)."""
RESET_MS = 15
"""USB 2.0 section 7.1.7.5: a hub drives a reset for 10 to 20 ms, a host's own port for 50 ms."""

Conduction = tuple[int, int]
"""Numbers of two pins: current can flow from the first to the second."""


@functools.cache
def _library() -> bytes:
    """Compile the harness."""
    command = ["gcc", "-std=gnu11", "-O2", "-Wall", "-Werror", "-shared", "-fPIC", "-Wl,-Bsymbolic"]
    command += [*map(str, HERE.glob("*.c")), "-lsimavr", "-o"]

    def compiled() -> bytes:
        with tempfile.NamedTemporaryFile(suffix=".so") as library:
            subprocess.run([*command, library.name], check=True)
            return Path(library.name).read_bytes()

    return made_once("the harness of the AVR boards", compiled)


def pin_number(name: str) -> int:
    """Return the harness's number of a pin: 24 for `PD0` of an AVR, 5 for an RP2040's `GPIO5`."""
    if name.startswith("GPIO"):
        return int(name[4:])
    return (ord(name[1]) - ord("A")) * 8 + int(name[2])


class AvrBoard:
    """A chip with a firmware, running from reset; a `Transport` for `UsbHost`."""

    def __init__(self, image: Image, profile: Profile, leavings: Leavings | None = None) -> None:
        chip, hertz = profile.chip.lower(), profile.clock_hz
        self.cycles_per_ms = hertz // 1000
        self._file = tempfile.NamedTemporaryFile(suffix=".so")  # noqa: SIM115
        Path(self._file.name).write_bytes(_library())  # its own copy: its own variables
        self._board = ctypes.CDLL(self._file.name)
        self._types()
        flash = image.flash
        buffer = (ctypes.c_uint8 * len(flash)).from_buffer_copy(flash)
        opened = self._board.board_open(
            chip.encode(), hertz, buffer, len(flash), profile.room_bytes
        )
        assert opened == 0
        for address, value in (all_leavings(chip) if leavings is None else leavings).items():
            self._board.board_leave(address, value)

    def _types(self) -> None:
        for name in ("cycles", "slept", "left_out", "run_until_armed", "longest_unread"):
            getattr(self._board, f"board_{name}").restype = ctypes.c_uint64
        self._board.board_finding.restype = ctypes.c_char_p
        self._board.board_run.argtypes = [ctypes.c_uint64]
        self._board.board_run_exactly.argtypes = [ctypes.c_uint64]
        self._board.board_run_until_armed.argtypes = [ctypes.c_int, ctypes.c_uint64]
        self._board.board_usb_transient.argtypes = [ctypes.c_uint64]
        self._board.board_pc.restype = ctypes.c_uint32
        self._board.board_peek.restype = ctypes.c_uint8
        self._board.board_eeprom.restype = ctypes.c_uint8

    def eeprom(self, address: int) -> int:
        """Return a byte of the EEPROM, which outlasts power."""
        return int(self._board.board_eeprom(address))

    def fill_eeprom(self, address: int, value: int) -> None:
        """Put a byte into the EEPROM, as another life has left it there."""
        self._board.board_fill_eeprom(address, value)

    def close(self) -> None:
        self._board.board_close()
        self._file.close()

    # --- switches --------------------------------------------------------------------------------

    def wire(self, mounted: Mounted) -> None:
        """Solder a keyboard's switches and diodes to the chip's pins."""
        self.solder(conduction_paths(mounted))

    def solder(self, switches: Mapping[str, tuple[Conduction, ...]]) -> None:
        """Solder switches to the pins: for each, from which to which its current can flow."""
        self.keys = {name: number for number, name in enumerate(switches)}
        for name, paths in switches.items():
            for start, end in paths:
                assert self._board.board_path(self.keys[name], start, end) >= 0

    def close_key(self, name: str) -> None:
        self._board.board_key(self.keys[name], 1)

    def open_key(self, name: str) -> None:
        self._board.board_key(self.keys[name], 0)

    def hold(self, pin: int, held: bool = True) -> None:
        """Solder the supply to a pin, or take it off."""
        self._board.board_hold(pin, int(held))

    def driven(self, pin: int) -> bool | None:
        """Return whether a pin is driven high or low; None where it is an input."""
        port, bit = divmod(pin, 8)
        _, ddr, out = (self._board.board_peek(PIN_A + 3 * port + place) for place in range(3))
        return bool(out >> bit & 1) if ddr >> bit & 1 else None

    def ground(self, pin: int, grounded: bool) -> None:
        """Join a pin to ground, as a contact of a knob does, or let it go."""
        self._board.board_ground(pin, int(grounded))

    def burden(self, pin: int, microseconds: float) -> None:
        """Let a pin take so long to rise, as one with a light or a resistor does."""
        self._board.board_burden(pin, int(microseconds * self.cycles_per_ms / 1000))

    def fuse(self, *, signature: bytes, fuses: bytes, lock: int) -> None:
        """Set what is set once: fuses are low, high and extended."""
        for place, value in enumerate(signature):
            self._board.board_fuse(1, 2 * place, value)
        for address, value in zip((0, 3, 2, 1), (*fuses, lock), strict=True):
            self._board.board_fuse(0, address, value)

    # --- time ------------------------------------------------------------------------------------

    def run(self, cycles: int) -> None:
        assert self._board.board_run(cycles) == 0, "the chip has stopped"
        self.judge()

    def run_exactly(self, cycles: int) -> None:
        """The same, but to the very instruction, and slowly."""
        assert self._board.board_run_exactly(cycles) == 0, "the chip has stopped"
        self.judge()

    @property
    def findings(self) -> list[str]:
        """What the judges found wrong with what the firmware has done to the chip."""
        count = int(self._board.board_findings())
        return [self._board.board_finding(number).decode() for number in range(count)]

    def judge(self) -> None:
        """Fail where the firmware has done what a chip would not forgive."""
        assert not self._board.board_findings(), self.findings

    def leave_nothing_out(self) -> None:
        """Run every turn of the main loop from now on, also those that would change nothing."""
        self._board.board_leave_nothing_out()

    @property
    def left_out(self) -> int:
        """How many turns of the main loop were left out."""
        return int(self._board.board_left_out())

    def wait(self, milliseconds: float) -> None:
        self.run(int(milliseconds * self.cycles_per_ms))

    @property
    def cycles(self) -> int:
        """Cycles since power-on, asleep or awake."""
        return int(self._board.board_cycles())

    @property
    def slept(self) -> int:
        """Cycles spent asleep."""
        return int(self._board.board_slept())

    def until_report(self, patience_ms: float = 20) -> int | None:
        """Run until a report waits in the endpoint; return the cycle at which it got there."""
        limit = int(patience_ms * self.cycles_per_ms)
        found = int(self._board.board_run_until_armed(1, limit)) or None
        self.judge()
        return found

    def scan_cycles(self, mounted: Mounted) -> tuple[int, int]:
        """Return the cycles of one whole scan of the matrix, and of one turn of the main loop."""
        drives = matrix_of(mounted.keyboard).drives
        scan, period = ctypes.c_uint64(), ctypes.c_uint64()
        first, last = (line_pin(line, mounted) for line in (drives[0], drives[-1]))
        found = self._board.board_measure_scan(
            first, last, ctypes.byref(scan), ctypes.byref(period)
        )
        assert found == 0, "the firmware does not scan"
        return scan.value, period.value

    def watch(self, pin: int) -> None:
        """Measure from now on for how long the pin's port is not read."""
        self._board.board_watch(pin // 8)

    @property
    def longest_unread(self) -> int:
        """The most cycles between two readings of the port that is watched."""
        return int(self._board.board_longest_unread())

    # --- the cable -------------------------------------------------------------------------------

    def reset(self) -> None:
        """Reset the bus once the chip has shown itself, and let it recover for 10 ms."""
        for _ in range(200):
            if self.attached:
                break
            self.wait(1)
        self._board.board_usb_reset()
        self.wait(RESET_MS)
        self._board.board_usb_reset_end()
        self.wait(10)

    def setup(self, packet: bytes) -> None:
        self.setup_over(packet)
        for _ in range(1000):
            self.run(self.cycles_per_ms // 100)
            if not self.setup_waits:
                return
        raise AssertionError("the firmware does not look at its SETUP packets")

    def setup_over(self, packet: bytes) -> None:
        """Send a SETUP packet and do not wait until it is read."""
        buffer = (ctypes.c_uint8 * 8).from_buffer_copy(packet)
        assert self._board.board_usb_setup(buffer) == 0, "a SETUP packet was not taken"

    @property
    def setup_waits(self) -> bool:
        """Whether the last SETUP packet has not been read yet."""
        return bool(self._board.board_usb_setup_waits())

    def in_(self, endpoint: int) -> bytes | None:
        buffer = (ctypes.c_uint8 * 64)()
        length = ctypes.c_uint32()
        result = self._board.board_usb_in(endpoint, buffer, ctypes.byref(length))
        if result == STALL:
            raise Stall(f"endpoint {endpoint}")
        return None if result == NAK else bytes(buffer[: length.value])

    def out(self, endpoint: int, data: bytes) -> bool:
        buffer = (ctypes.c_uint8 * 64)(*data)
        result = self._board.board_usb_out(endpoint, buffer, len(data))
        if result == STALL:
            raise Stall(f"endpoint {endpoint}")
        return bool(result == 0)

    def suspend(self) -> None:
        self._board.board_usb_suspend()

    def resume(self) -> None:
        """Resume the bus, as the host does: for 20 ms (USB 2.0 section 7.1.7.7)."""
        self._board.board_usb_resume()
        self.wait(20)
        self._board.board_usb_resume_end()

    def frames_each(self, milliseconds: float) -> None:
        """Let the computer send a frame so often by the chip's clock."""
        self._board.board_usb_frames_each(round(milliseconds * self.cycles_per_ms))

    def transient(self, after_ms: float = 0) -> None:
        """Disturb the suspended bus for a moment: now or later, also in the middle of a nap."""
        self._board.board_usb_transient(int(after_ms * self.cycles_per_ms))

    def rc_type(self, *, crystal_starts: bool = True) -> None:
        """Be a chip whose ordering code ends in RC: it starts on its own oscillator."""
        self._board.board_rc_type(int(crystal_starts))

    def pll_fails(self, times: int) -> None:
        """Let the PLL not lock when it is started the next few times."""
        self._board.board_usb_pll_fails(times)

    # --- looking inside --------------------------------------------------------------------------

    @property
    def address(self) -> int:
        """The address that the chip answers to."""
        value = int(self._board.board_usb_address())
        return value & 0x7F if value & ADDEN else 0

    def type_of(self, address: int) -> int:
        """Return an open endpoint's type, as its descriptor has it: USB 2.0 table 9-13."""
        kind = int(self._board.board_endpoint_kind(address & 0x0F))
        assert kind & 1 == address >> 7, "the other direction"
        return kind >> 6

    @property
    def attached(self) -> int:
        """How often the chip has shown itself to the host."""
        return int(self._board.board_usb_attached())

    @property
    def wakes(self) -> int:
        """How often the chip has signalled the host to wake up."""
        return int(self._board.board_usb_wakes())

    @property
    def frozen_uses(self) -> int:
        """How often the firmware used an endpoint whose clock stood still."""
        return int(self._board.board_usb_frozen_uses())

    @property
    def spoiled(self) -> int:
        """How often a byte was written over a SETUP packet that waited."""
        return int(self._board.board_usb_spoiled())

    @property
    def misgiven(self) -> int:
        """How often a packet or a STALL was given while a SETUP packet waited."""
        return int(self._board.board_usb_misgiven())

    @property
    def overread(self) -> int:
        """How often a byte of the control endpoint was read that its packet did not have."""
        return int(self._board.board_usb_overread())

    @property
    def misread(self) -> int:
        """How often a packet was read that was not there, or let go before its flag was cleared."""
        return int(self._board.board_usb_misread())

    @property
    def lost_resets(self) -> int:
        """How many bus resets ended while the USB block's clock stood still."""
        return int(self._board.board_usb_lost_resets())

    def hang(self, address: int) -> None:
        """Let the program hang, in an endless jump at an unused flash address."""
        self._board.board_hang(address)

    def plant_boot_loader(self, address: int) -> None:
        """Put a boot loader there that does nothing, for ever."""
        self._board.board_plant_loop(address)

    def reset_starts_at(self, address: int) -> None:
        """Let a reset start the program there, as the fuse BOOTRST does."""
        self._board.board_reset_starts_at(address)

    @property
    def pc(self) -> int:
        """The address in flash, in bytes, of the next instruction."""
        return int(self._board.board_pc())

    def peek(self, address: int) -> int:
        return int(self._board.board_peek(address))

    def poke(self, address: int, value: int) -> None:
        self._board.board_poke(address, value)

    def write(self, address: int, value: int) -> None:
        """Write a register as the program would."""
        self._board.board_write(address, value)

    def read(self, address: int) -> int:
        """Read a register as the program would."""
        return int(self._board.board_read(address))

    def step(self, cycles: int) -> None:
        """Let cycles pass, whatever the judges have found so far."""
        self._board.board_run_exactly(cycles)

    def ram_untouched(self, address: int) -> int:
        """How many bytes from `address`, the end of the variables, no stack has reached yet."""
        return int(self._board.board_ram_untouched(address))


def conduction_paths(mounted: Mounted) -> dict[str, tuple[Conduction, ...]]:
    """Return, for each key, from which pin to which its current can flow while it is closed.

    A diode conducts towards its band; a key without one conducts both ways.
    """
    matrix = matrix_of(mounted.keyboard)
    drives, senses = (
        [line_pin(line, mounted) for line in lines] for lines in (matrix.drives, matrix.senses)
    )
    return {
        contact.key: _paths(contact.diode, drives[contact.drive], senses[contact.sense])
        for contact in matrix.contacts
    }


def _paths(diode: Diode, drive: int, sense: int) -> tuple[Conduction, ...]:
    to_drive, to_sense = (sense, drive), (drive, sense)
    return {"toward": (to_drive,), "away": (to_sense,), "none": (to_drive, to_sense)}[diode]


def line_pin(line: Line, mounted: Mounted) -> int:
    """Return the harness's number of the pin that a line ends on."""
    found = mounted.pin_of(line)
    assert found is not None
    return pin_number(found.name)


@contextmanager
def board(image: Image, mounted: Mounted, leavings: Leavings | None = None) -> Iterator[AvrBoard]:
    """Return a running board that `image` was made for; it goes at the end.

    `leavings` is what its boot loader left; all that one could if not given.
    """
    made = AvrBoard(image, mounted.profile, leavings)
    made.wire(mounted)
    try:
        yield made
    finally:
        made.close()
