"""The bench's firmware on each chip that is emulated, by both compilers, with a host of its class.

What a host sends and expects is of CDC 1.2 and PSTN 1.2, sections from memory.
"""

from __future__ import annotations

import functools
import itertools
import struct
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from matrixgen.emit.bench_view import BenchView
from matrixgen.families import CompilerKind
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard, pin_number
from tests.emulators.avr.conftest import BUILDS as AVR_BUILDS
from tests.emulators.bench_on_chip import built, started, view_of
from tests.emulators.keyboards import profile
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.rp2040.builds import KINDS
from tests.emulators.rp2040.test_boot import BOOT_ROM_DRIVE, identity
from tests.emulators.serial_host import (
    BULK_IN,
    BULK_OUT,
    CONTROL_PACKET,
    GET_ENCAPSULATED_RESPONSE,
    OF_INTERFACE,
    PACKET,
    SEND_BREAK,
    SEND_ENCAPSULATED_COMMAND,
    SET_LINE_CODING,
    TO_INTERFACE,
    SerialHost,
)
from tests.emulators.usb_host import Stall

pytestmark = pytest.mark.chips_in_turn
BUILDS: tuple[tuple[str, CompilerKind], ...] = (
    *AVR_BUILDS,
    *(("rp2040", kind) for kind in KINDS),
)
COUNTS_MS, SCAN_MS = 5, 4
"""A pair counts after so long; a turn through all pins takes less than that."""

TOLD_MS = 2 * COUNTS_MS + 2 * SCAN_MS
"""Where a pin had another change just before, that one's time comes first."""

BULK, INTERRUPT, NOTICES_IN = 2, 3, 2
SET_CONFIGURATION = 9
HALT, SET_FEATURE, CLEAR_FEATURE, TO_ENDPOINT = 0, 3, 1, 0x02


@dataclass
class Desk:
    """A board with switches between its first pins, plugged in, its port not yet open.

    `a` to `d` are pins; the switch `a-b` joins two of them, `c>d` has a diode: its current flows
    from `c` to `d`, so that `c` reads low where `d` is pulled low.
    """

    chip: AvrBoard | Rp2040Board
    host: SerialHost
    view: BenchView
    image: Image

    @property
    def pins(self) -> list[str]:
        return [line.pin for line in self.view.drives]

    def named(self, *lines: str) -> list[str]:
        """Return lines with the letters of pins replaced by the pins, in alphabetical order."""
        letters = dict(zip("abcd", self.pins, strict=False))
        words = (line.split() for line in lines)
        return sorted(" ".join(letters.get(word, word) for word in line) for line in words)


@functools.cache
def switches(chip: str) -> dict[str, tuple[tuple[int, int], ...]]:
    pins = [pin_number(line.pin) for line in view_of(chip).drives]
    a, b, c, d = pins[:4]
    pairs = {
        f"all-{first}-{second}": ((first, second), (second, first))
        for first, second in itertools.pairwise(pins)
    }
    return {"a-b": ((a, b), (b, a)), "c>d": ((c, d),), **pairs}


@pytest.fixture(params=BUILDS, ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    chip, kind = request.param
    image = built(chip, kind)
    board = started(profile(chip), image)
    board.solder(switches(chip))
    host = SerialHost(board)
    host.plug_in()
    yield Desk(board, host, view_of(chip), image)
    if isinstance(board, AvrBoard):
        assert (board.frozen_uses, board.misread, board.spoiled, board.misgiven) == (0, 0, 0, 0)
        assert board.ram_untouched(0x100 + image.ram_used) > 64
    board.close()


def opened(desk: Desk) -> list[str]:
    desk.host.set_dtr(True)
    return desk.host.until_ready()


def test_its_descriptors_are_those_of_an_abstract_control_model(desk: Desk) -> None:
    """USB IAD ECN; CDC 1.2 section 5.2.3; PSTN 1.2 section 5.3."""
    device, configuration = desk.host.plug_in()
    assert device[4:7] == bytes([0xEF, 2, 1])
    parts = []
    while configuration:
        parts.append(configuration[: configuration[0]])
        configuration = configuration[configuration[0] :]
    assert [part[1] for part in parts] == [2, 0x0B, 4, 0x24, 0x24, 0x24, 0x24, 5, 4, 5, 5]
    assert parts[0][2:5] == bytes([sum(map(len, parts)), 0, 2])
    assert parts[1][2:7] == bytes([0, 2, 2, 2, 0])
    assert parts[2][5:8] == bytes([2, 2, 0])
    assert [part[2] for part in parts[3:7]] == [0, 1, 2, 6]
    assert parts[6] == bytes([5, 0x24, 6, 0, 1])
    assert parts[8][5:8] == bytes([0x0A, 0, 0])
    ends = [(part[2], part[3], part[4]) for part in parts if part[1] == 5]
    assert ends == [(0x82, 3, 16), (0x03, 2, 16), (0x81, 2, 64)]


def test_each_endpoint_is_of_the_type_that_its_descriptor_says(desk: Desk) -> None:
    """USB 2.0 sections 5.7 and 5.8, as the chip is told."""
    opened(desk)
    addresses = (0x80 | BULK_IN, BULK_OUT, 0x80 | NOTICES_IN)
    assert [desk.chip.type_of(address) for address in addresses] == [BULK, BULK, INTERRUPT]


def test_requests_of_the_class_are_carried_out(desk: Desk) -> None:
    host = desk.host
    assert host.line() == bytes([0x80, 0x25, 0, 0, 0, 0, 8])
    host.set_line(115200, stop=2, parity=1, bits=7)
    assert host.line() == bytes([0x00, 0xC2, 0x01, 0x00, 2, 1, 7])
    host.write(0x21, SEND_BREAK, 500, 0)
    assert host.refuses(0xA1, 0x02, 0, 0, 8)
    assert host.refuses(0x21, 0x20, 0, 1, 7)
    assert host.refuses(0x21, 0x20, 0, 0, 8)
    assert host.refuses(0x00, SET_FEATURE, 1, 0, 0)
    assert host.refuses(TO_ENDPOINT, SET_FEATURE, HALT, 0, 0)
    host.write(TO_ENDPOINT, CLEAR_FEATURE, HALT, 0)
    assert host.read(0x80, 0, 0, 0, 2) == bytes(2)


def test_commands_of_a_control_protocol_are_taken_and_have_no_answer(desk: Desk) -> None:
    """PSTN 1.2 table 4: both requests are required, without a protocol too (from memory)."""
    host = desk.host
    before = host.line()
    for length in (0, 7, CONTROL_PACKET):
        host.write(TO_INTERFACE, SEND_ENCAPSULATED_COMMAND, 0, 0, bytes(length))
        assert host.read(OF_INTERFACE, GET_ENCAPSULATED_RESPONSE, 0, 0, CONTROL_PACKET) == b""
    assert host.read(OF_INTERFACE, GET_ENCAPSULATED_RESPONSE, 0, 0, 0) == b""
    assert host.line() == before
    assert host.refuses(TO_INTERFACE, SEND_ENCAPSULATED_COMMAND, 0, 0, CONTROL_PACKET + 1)
    assert host.refuses(TO_INTERFACE, SEND_ENCAPSULATED_COMMAND, 0, 1, 7)
    host.set_line(2400)
    assert host.line()[:4] == struct.pack("<I", 2400)


def test_an_opened_port_says_what_it_is_and_what_is_closed(desk: Desk) -> None:
    desk.chip.close_key("a-b")
    desk.chip.close_key("c>d")
    desk.chip.wait(TOLD_MS)
    first, *lines = opened(desk)
    assert first == f"bench 2 {desk.view.profile.chip}"
    pins = [line for line in lines if line.startswith("pins ")]
    assert lines[: len(pins)] == pins
    assert [name for line in pins for name in line.split()[1:]] == desk.pins
    assert sorted(lines[len(pins) :]) == desk.named("a > b closed", "b > a closed", "d > c closed")
    assert all(0 < len(packet) < PACKET for packet in desk.host.packets)
    assert all(packet.endswith(b"\r\n") for packet in desk.host.packets)


def test_a_closed_port_says_nothing(desk: Desk) -> None:
    desk.chip.close_key("a-b")
    assert desk.host.hear(TOLD_MS) == []


def test_each_change_is_a_line_and_a_diode_lets_one_way_through(desk: Desk) -> None:
    opened(desk)
    hear = desk.host.hear
    desk.chip.close_key("c>d")
    assert hear(TOLD_MS) == desk.named("d > c closed")
    desk.chip.close_key("a-b")
    assert sorted(hear(TOLD_MS)) == desk.named("a > b closed", "b > a closed")
    desk.chip.open_key("c>d")
    assert hear(TOLD_MS) == desk.named("d > c open")
    assert hear(TOLD_MS) == []


def test_a_change_counts_once_it_has_lasted(desk: Desk) -> None:
    opened(desk)
    start = desk.chip.cycles
    desk.chip.close_key("c>d")
    told = desk.chip.until_report(30)
    assert told is not None
    passed = (told - start) / desk.chip.cycles_per_ms
    assert COUNTS_MS <= passed <= COUNTS_MS + 1 + 2 * SCAN_MS
    assert desk.host.hear(1) == desk.named("d > c closed")


def test_what_is_shorter_is_not_told(desk: Desk) -> None:
    opened(desk)
    for _ in range(4):
        desk.chip.close_key("a-b")
        assert desk.host.hear(COUNTS_MS - 1) == []
        desk.chip.open_key("a-b")
        assert desk.host.hear(SCAN_MS) == []
    assert desk.host.hear(TOLD_MS) == []


def test_a_host_that_does_not_read_hears_of_the_differences(desk: Desk) -> None:
    opened(desk)
    desk.chip.close_key("c>d")
    desk.chip.wait(TOLD_MS)  # this line waits in the endpoint
    for _ in range(3):
        desk.chip.close_key("a-b")
        desk.chip.wait(TOLD_MS)
        desk.chip.open_key("a-b")
        desk.chip.wait(TOLD_MS)
    desk.chip.close_key("a-b")
    desk.chip.open_key("c>d")
    desk.chip.wait(TOLD_MS)
    lines = desk.host.hear(2 * TOLD_MS)
    assert lines[0] == desk.named("d > c closed")[0]
    assert sorted(lines[1:]) == desk.named("a > b closed", "b > a closed", "d > c open")


def test_a_question_mark_is_answered_with_everything_and_all_else_with_help(desk: Desk) -> None:
    everything = opened(desk)
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == everything
    desk.host.say(b"\r\n?\r\n")
    assert desk.host.until_ready() == everything
    for other in (b"AT+GCAP\r", b"??\n", b" ?\n", b"x" * 200 + b"?\n"):
        desk.host.say(other)
        assert desk.host.hear(3) == ["? for everything"], other
    desk.host.say(b"?")
    assert desk.host.hear(3) == []


def test_a_port_is_asked_and_answers_before_it_is_opened(desk: Desk) -> None:
    desk.host.say(b"?\n")
    everything = desk.host.until_ready()
    assert opened(desk) == everything
    desk.host.set_dtr(False)
    desk.chip.close_key("c>d")
    assert desk.host.hear(TOLD_MS) == []
    assert opened(desk) == [*everything, *desk.named("d > c closed")]


def test_pins_that_all_meet_are_all_told_one_by_one(desk: Desk) -> None:
    for name in switches(desk.view.profile.name):
        if name.startswith("all"):
            desk.chip.close_key(name)
    desk.chip.wait(TOLD_MS)
    desk.host.set_dtr(True)
    pairs = [line for line in desk.host.until_ready(2000) if line.endswith(" closed")]
    assert pairs == [f"{a} > {b} closed" for a, b in itertools.permutations(desk.pins, 2)]


def test_what_a_cleared_halt_throws_away_is_told_anew(desk: Desk) -> None:
    everything = opened(desk)
    desk.chip.close_key("c>d")
    desk.chip.wait(TOLD_MS)
    desk.host.write(TO_ENDPOINT, SET_FEATURE, HALT, 0x80 | BULK_IN)
    desk.chip.wait(2)
    desk.host.write(TO_ENDPOINT, CLEAR_FEATURE, HALT, 0x80 | BULK_IN)
    assert desk.host.until_ready() == [*everything, *desk.named("d > c closed")]
    desk.host.write(TO_ENDPOINT, SET_FEATURE, HALT, 3)
    desk.host.write(TO_ENDPOINT, CLEAR_FEATURE, HALT, 3)
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == [*everything, *desk.named("d > c closed")]


def test_what_is_halted_says_nothing_of_what_was_heard_before(desk: Desk) -> None:
    """USB 2.0 section 9.4.5: a halted endpoint stalls until it is cleared, and nothing is read."""
    everything = opened(desk)
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == everything
    desk.host.write(TO_ENDPOINT, SET_FEATURE, HALT, BULK_OUT)
    assert desk.host.hear(TOLD_MS) == [], "the question is heard once more"
    with pytest.raises(Stall):
        desk.chip.out(BULK_OUT, b"?\n")
    desk.host.write(TO_ENDPOINT, CLEAR_FEATURE, HALT, BULK_OUT)
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == everything


def test_one_that_is_configured_again_is_as_new(desk: Desk) -> None:
    """USB 2.0 section 9.1.1.5: toggles begin with DATA0, and no packet is left from before."""
    everything = opened(desk)
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == everything
    desk.host.write(0x00, SET_CONFIGURATION, 1, 0)
    assert opened(desk) == everything
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == everything


def test_a_reset_bus_closes_the_port(desk: Desk) -> None:
    everything = opened(desk)
    desk.chip.close_key("a-b")
    desk.chip.wait(TOLD_MS)
    desk.host.plug_in(9)
    assert desk.host.hear(TOLD_MS) == []
    assert sorted(opened(desk)) == sorted(
        [*everything, *desk.named("a > b closed", "b > a closed")]
    )


def test_it_sleeps_with_the_bus_and_goes_on_where_it_was(desk: Desk) -> None:
    opened(desk)
    desk.chip.suspend()
    desk.chip.wait(20)
    before, start = desk.chip.slept, desk.chip.cycles
    desk.chip.close_key("c>d")
    desk.chip.wait(100)
    assert desk.chip.slept - before > 0.7 * (desk.chip.cycles - start)
    desk.chip.resume()
    assert desk.host.hear(2 * TOLD_MS) == desk.named("d > c closed")
    assert desk.chip.wakes == 0


def leaves(desk: Desk, baud: int) -> bool:
    """Close the port at a speed; return whether the chip then runs its boot loader."""
    chip = desk.chip
    desk.host.set_dtr(True)
    desk.host.set_line(baud)
    desk.host.set_dtr(False)
    if isinstance(chip, Rp2040Board):
        chip.wait(150)
        return identity(chip) == BOOT_ROM_DRIVE
    loader = profile(desk.view.profile.name).room_bytes
    chip.plant_boot_loader(loader)
    chip.wait(200)
    return chip.pc == loader


@pytest.mark.few(3)
@pytest.mark.parametrize("baud", [1200, 9600, 1200 + 65536])
def test_a_port_that_is_closed_at_1200_baud_leaves_for_the_boot_loader(
    desk: Desk, baud: int
) -> None:
    assert leaves(desk, baud) == (baud == 1200)


def test_no_pin_is_driven_high_and_one_at_a_time_low(desk: Desk) -> None:
    chip = desk.chip
    opened(desk)
    if isinstance(chip, Rp2040Board):
        moves: list[tuple[int, bool]] = []
        chip.rp2040.sio.on_drive = lambda pins, low: moves.append((pins, low))
        chip.wait(3)
        assert chip.rp2040.sio.gpio_value == 0
        pulled = [pins for pins, low in moves if low]
        assert all(first != second for (_, first), (_, second) in itertools.pairwise(moves))
        assert set(pulled) == {1 << pin_number(pin) for pin in desk.pins}
        return
    pulled = []
    for _ in range(chip.cycles_per_ms):
        chip.run_exactly(2)
        driven = high = 0
        for port in range(5):
            ddr, value = chip.peek(0x24 + 3 * port), chip.peek(0x25 + 3 * port)
            driven, high = driven | ddr << 8 * port, high | (ddr & value) << 8 * port
        assert high == 0
        assert driven.bit_count() <= 1
        pulled.append(driven)
    assert len(set(pulled)) > len(desk.pins) // 3


def test_it_answers_for_itself_what_it_is_and_how_it_runs(desk: Desk) -> None:
    """Signature and fuses as the harness has them: what LPM reads within three cycles of SPMCSR."""
    chip = desk.chip
    a, b, *_ = map(pin_number, desk.pins)
    if isinstance(chip, AvrBoard):
        chip.fuse(signature=b"\x1e\x95\x87", fuses=b"\xff\xd8\xcb", lock=0xEC)
    chip.burden(a, 30)
    chip.burden(b, 1000)
    opened(desk)
    chip.wait(1100 if isinstance(chip, AvrBoard) else 1030)
    desk.host.say(b"?\n")
    desk.host.until_ready()
    facts = dict(line.split(" ", 2)[1:] for line in desk.host.answers if line.startswith("fact"))
    if isinstance(chip, AvrBoard):
        registers = {"signature": "1E9587", "fuses": "FFD8CB", "lock": "EC", "endpoints": "0F"}
        registers["reset"] = "0F"  # as `leavings.py` has it
    else:
        registers = {"chip": "20002927", "reset": "00000100", "watchdog": "00000000"}
    longest, clock = facts.pop("turn"), facts.pop("clock")
    assert facts == registers
    assert 30 < int(longest) < 1000
    microseconds, frames = map(int, clock.split())
    assert frames >= 1024 and abs(microseconds / (1000 * frames) - 1) < 300e-6
    rises = dict(line.split()[1:] for line in desk.host.answers if line.startswith("rises"))
    assert list(rises) == desk.pins
    assert 28 <= int(rises.pop(desk.pins[0])) <= 31
    assert rises.pop(desk.pins[1]) == "never"
    assert all(int(each) <= 1 for each in rises.values())


def test_a_clock_that_is_off_shows(desk: Desk) -> None:
    """Frames each 1.002 ms of the chip's: its clock is 2,000 ppm fast."""
    chip = desk.chip
    if isinstance(chip, Rp2040Board):
        return  # rp2040py's time is that of the crystal
    chip.frames_each(1.002)
    opened(desk)
    chip.wait(1200)
    desk.host.say(b"?\n")
    desk.host.until_ready()
    (clock,) = [line for line in desk.host.answers if line.startswith("fact clock ")]
    microseconds, frames = map(int, clock.split()[2:])
    assert abs(microseconds / (1000 * frames) - 1.002) < 300e-6


def test_a_held_pin_is_not_asked_how_it_rises(desk: Desk) -> None:
    desk.chip.hold(pin_number(desk.pins[2]))
    desk.chip.wait(TOLD_MS)
    opened(desk)
    rises = [line.split()[1] for line in desk.host.answers if line.startswith("rises")]
    assert rises == [pin for pin in desk.pins if pin != desk.pins[2]]


def pulls(desk: Desk, pin: int, milliseconds: int) -> list[float]:
    """Return for how many microseconds a pin is driven low, each time in some milliseconds."""
    chip = desk.chip
    if isinstance(chip, Rp2040Board):
        moves: list[tuple[bool, int]] = []
        chip.rp2040.sio.on_drive = lambda pins, low: (
            moves.append((low, chip.cycles)) if pins & 1 << pin else None
        )
        chip.wait(milliseconds)
        chip.rp2040.sio.on_drive = lambda pins, low: None
        times = [when for _, when in moves]
        return [
            1000 * (end - start) / chip.cycles_per_ms
            for start, end in zip(times[::2], times[1::2], strict=True)
        ]
    lasted, start = [], None
    for _ in range(milliseconds * chip.cycles_per_ms):
        chip.run_exactly(1)
        drives = chip.peek(0x21 + 3 * (pin // 8)) >> pin % 8 & 1
        if drives and start is None:
            start = chip.cycles
        elif not drives and start is not None:
            lasted.append(1000 * (chip.cycles - start) / chip.cycles_per_ms)
            start = None
    return lasted


def test_a_line_on_the_supply_and_its_pin_is_looked_at_and_not_pulled(desk: Desk) -> None:
    a = pin_number(desk.pins[0])
    everything = opened(desk)
    assert max(pulls(desk, a, 5)) > 9
    desk.chip.hold(a)
    looks = pulls(desk, a, 12)
    assert max(looks, default=0) <= 1, "the look of an AVR, which has no pull-down"
    assert not (looks and isinstance(desk.chip, Rp2040Board))
    assert desk.host.hear(TOLD_MS) == desk.named("a high")
    assert pulls(desk, a, 5) == []
    desk.chip.close_key("a-b")
    assert desk.host.hear(TOLD_MS) == desk.named("b high")
    desk.chip.open_key("a-b")
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == [*everything, *desk.named("a high")]
    desk.chip.hold(a, False)
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == everything
    assert max(pulls(desk, a, 5)) > 9


def test_a_line_on_the_supply_instead_of_its_pin_shows_at_the_other_end_of_a_key(
    desk: Desk,
) -> None:
    """The line is on a pin that the bench does not know; current flows from it through the key."""
    line = next(pin for pin in range(48) if pin not in map(pin_number, desk.pins))
    d = pin_number(desk.pins[3])
    desk.chip.solder({**switches(desk.view.profile.name), "key": ((line, d),)})
    desk.chip.hold(line)
    everything = opened(desk)
    desk.chip.close_key("key")
    assert max(pulls(desk, d, 12), default=0) <= 10.5, "pressed in the middle of a pull"
    assert desk.host.hear(TOLD_MS) == desk.named("d high")
    assert pulls(desk, d, 5) == []
    desk.chip.open_key("key")
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == everything


def test_a_diode_that_is_the_other_way_keeps_the_supply_from_a_pin(desk: Desk) -> None:
    everything = opened(desk)
    desk.chip.hold(pin_number(desk.pins[3]))
    desk.chip.close_key("c>d")
    assert desk.host.hear(TOLD_MS) == desk.named("d high")
    desk.host.say(b"?\n")
    assert desk.host.until_ready() == [*everything, *desk.named("d high")]


def test_pull_ups_of_pins_that_meet_are_not_taken_for_the_supply(desk: Desk) -> None:
    for name in switches(desk.view.profile.name):
        if name.startswith("all"):
            desk.chip.close_key(name)
    desk.chip.wait(TOLD_MS)
    desk.host.set_dtr(True)
    assert not any(line.endswith(" high") for line in desk.host.until_ready(2000))


def test_a_speed_that_comes_at_any_cycle_of_a_turn_is_taken_whole(desk: Desk) -> None:
    """Its data are sent as late after the SETUP as a turn of the loop is long, cycle by cycle."""
    chip, host = desk.chip, desk.host
    if isinstance(chip, Rp2040Board):
        return  # its controller tells the length along with the packet
    opened(desk)
    for cycles in range(400):
        coding = struct.pack("<IBBB", 2400 + cycles, 0, 0, 8)
        chip.setup(struct.pack("<BBHHH", TO_INTERFACE, SET_LINE_CODING, 0, 0, len(coding)))
        while chip.setup_waits:
            chip.wait(1 / chip.cycles_per_ms)
        chip.wait(cycles / chip.cycles_per_ms)
        host._out(0, coding)
        assert host._in(0) == b""
        assert host.line() == coding, cycles
