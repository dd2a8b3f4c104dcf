"""The bench's firmware for this computer: it tells what is closed, whatever the host does."""

from __future__ import annotations

import ctypes
import random
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from matrixgen.emit.bench_tree import bench_tree
from matrixgen.emit.bench_view import BenchView, bench_view
from matrixgen.families import FAMILIES
from tests.amounts import in_turn
from tests.emulators.keyboards import profile
from tests.firmware.host_build import COMPILERS, SANITIZERS, compile_c, sources, write_tree

SOAK = Path(__file__).with_name("bench_soak.c")
LINE = re.compile(r"(\w+) > (\w+) (closed|open)")
CONFIGURE = bytes([0x00, 9, 1, 0, 0, 0, 0, 0])
OPEN, CLOSE = bytes([0x21, 0x22, 3, 0, 0, 0, 0, 0]), bytes([0x21, 0x22, 0, 0, 0, 0, 0, 0])
SET_LINE = bytes([0x21, 0x20, 0, 0, 0, 0, 7, 0])
COUNTS_MS = 5
COUNTED_MS = 2
"""After the reading with which a change counts: that it is told, when its pin's turn has come."""
Pair = tuple[int, int]


def host_bench(controller: str) -> BenchView:
    known = profile(controller)
    return bench_view(known, FAMILIES[known.port or ""], port="host")


class BenchBoard:
    """The firmware on the host's port, and a host that reads when it likes."""

    def __init__(self, library: Path, view: BenchView) -> None:
        self.c = ctypes.CDLL(str(library))
        self.pins = [line.pin for line in view.drives]
        self.restart()

    def restart(self) -> None:
        self.high: set[int] = set()
        self.c.host_reset()
        self.c.bench_start()
        self.text = b""
        self.told: set[Pair] = set()
        self.closed: set[Pair] = set()
        self.c.host_bus(1)
        self.turn()
        self.write(CONFIGURE)

    def turn(self, times: int = 1) -> None:
        for _ in range(times):
            self.c.bench_step()

    def scan(self, milliseconds: int = 1) -> None:
        """Let time pass, with one look at every pin in each millisecond."""
        for _ in range(milliseconds):
            self.c.host_advance_ms(1)
            self.turn(len(self.pins))

    def write(self, setup: bytes, data: bytes = b"") -> None:
        buffer = (ctypes.c_uint8 * 64)()
        self.c.host_send_setup(setup)
        self.turn()
        if data:
            self.c.host_send_out(data, len(data))
            self.turn()
        self.turn()
        assert self.c.host_take_in(buffer) == 0
        self.turn()

    def switch(self, pair: Pair, closed: bool) -> None:
        self.c.host_close(*pair, ctypes.c_bool(closed))
        (self.closed.add if closed else self.closed.discard)(pair)

    def read(self) -> list[str]:
        """Take a packet, if there is one; return its lines, which `told` follows."""
        buffer = (ctypes.c_uint8 * 64)()
        length = self.c.host_take_packet(1, buffer)
        if length < 0:
            return []
        packet = bytes(buffer[:length])
        assert packet.endswith(b"\r\n")
        lines = packet.decode("ascii").split("\r\n")[:-1]
        for line in lines:
            self._follow(line)
        return lines

    def _follow(self, line: str) -> None:
        if line.startswith("bench"):
            self.told.clear()
            self.high.clear()
        elif line.endswith(" high"):
            pin = self.pins.index(line.removesuffix(" high"))
            assert pin not in self.high, f"told twice: {line}"
            self.high.add(pin)
            self.told = {pair for pair in self.told if pair[0] != pin}
        elif found := LINE.fullmatch(line):
            pair = (self.pins.index(found[1]), self.pins.index(found[2]))
            assert (pair in self.told) == (found[3] == "open"), f"told twice: {line}"
            (self.told.add if found[3] == "closed" else self.told.discard)(pair)

    def hear(self, milliseconds: int) -> list[str]:
        lines = []
        for _ in range(milliseconds):
            self.c.host_advance_ms(1)
            for _ in self.pins:
                self.turn()
                lines += self.read()
        return lines


@pytest.fixture(scope="module", params=["at90usb162", "at90usb1286", "rp2040"])
def library(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> BenchBoard:
    view = host_bench(request.param)
    tree = write_tree(bench_tree(view), tmp_path_factory.mktemp("bench"))
    files = sources(tree, with_usb=True)
    return BenchBoard(compile_c(tree, tree / "bench.so", files, "gcc", "-shared", "-fPIC"), view)


@pytest.fixture
def board(library: BenchBoard) -> Iterator[BenchBoard]:
    library.restart()
    yield library
    assert library.c.host_faults() == 0


def test_a_change_is_told_once_each_reading_for_5_ms_has_shown_it(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.switch((0, 1), True)
    assert board.hear(COUNTS_MS + 1) == []
    assert board.hear(COUNTED_MS) == [f"{board.pins[0]} > {board.pins[1]} closed"]
    board.switch((0, 1), False)
    assert board.hear(COUNTS_MS + 1) == []
    assert board.hear(COUNTED_MS) == [f"{board.pins[0]} > {board.pins[1]} open"]


def test_one_reading_that_says_otherwise_begins_anew(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.switch((0, 1), True)
    for _ in range(10):
        assert board.hear(COUNTS_MS - 1) == []
        board.switch((0, 1), False)
        board.turn(len(board.pins))
        board.switch((0, 1), True)
    assert len(board.hear(COUNTS_MS + 1 + COUNTED_MS)) == 1


def test_a_pair_that_never_rests_keeps_no_other_waiting(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.switch((0, 2), True)
    lines = []
    for turn in range(20):
        board.switch((0, 1), turn % 2 == 0)
        lines += board.hear(1)
    assert lines == [f"{board.pins[0]} > {board.pins[2]} closed"]


def test_what_was_heard_is_what_is_closed_once_the_host_reads_again(board: BenchBoard) -> None:
    choose = random.Random(len(board.pins))
    board.write(OPEN)
    for _ in range(150):
        for _ in range(choose.randrange(6)):
            pair = (choose.randrange(len(board.pins)), choose.randrange(len(board.pins)))
            if pair[0] != pair[1]:
                board.switch(pair, choose.random() < 0.6)
        if choose.random() < 0.5:
            board.scan(choose.randrange(12))
        else:
            board.hear(choose.randrange(12))
        if choose.random() < 0.1:
            board.c.host_send_packet(3, b"?\r\n", 3)
        if choose.random() < 0.05:
            board.write(CLOSE)
            board.write(OPEN)
    board.hear(40)
    assert board.told == board.closed


LOOKS = 3
"""That find a pin high, one after another, before it is told."""


def test_a_pin_that_is_held_high_is_told_once_and_left_alone(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.c.host_hold(2, True)
    before = board.c.host_looks(2)
    assert board.hear(100) == [f"{board.pins[2]} high"]
    assert board.c.host_looks(2) - before == LOOKS
    board.c.host_hold(2, False)
    assert board.hear(100) == []
    assert board.c.host_looks(2) - before == LOOKS


@pytest.mark.few(3)
@pytest.mark.parametrize("is_held", [True, False])
def test_a_question_looks_once_more_at_what_was_held_high(board: BenchBoard, is_held: bool) -> None:
    board.write(OPEN)
    board.c.host_hold(2, True)
    board.c.host_hold(0, True)
    board.hear(40)
    board.c.host_hold(2, is_held)
    before = board.c.host_looks(2)
    board.c.host_send_packet(3, b"?\n", 2)
    lines = board.hear(60)
    high = [0, 2] if is_held else [0]
    assert lines[-len(high) - 1 :] == [f"{board.pins[pin]} high" for pin in high] + ["ready"]
    assert board.c.host_looks(2) - before == 1 or not is_held, "no look at how it rises"


def test_one_look_that_finds_it_high_is_a_spark_and_not_the_supply(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    for _ in range(10):
        board.c.host_hold(1, True)
        board.scan(LOOKS - 1)
        board.c.host_hold(1, False)
        board.scan(1)
    assert board.hear(30) == []


def test_nothing_is_said_to_be_closed_by_a_pin_that_is_not_pulled(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.switch((2, 1), True)
    assert len(board.hear(20)) == 1
    board.c.host_hold(2, True)
    assert board.hear(20) == [f"{board.pins[2]} high"]
    board.c.host_send_packet(3, b"?\n", 2)
    assert not any(line.endswith("closed") for line in board.hear(60))
    board.c.host_hold(2, False)
    board.c.host_send_packet(3, b"?\n", 2)
    assert f"{board.pins[2]} > {board.pins[1]} closed" in board.hear(60)


def test_what_is_held_high_while_nobody_listens_is_told_when_somebody_does(
    board: BenchBoard,
) -> None:
    board.c.host_hold(1, True)
    board.scan(20)
    board.write(OPEN)
    assert board.hear(60)[-2:] == [f"{board.pins[1]} high", "ready"]


def test_what_was_heard_is_right_whatever_is_held_high_and_let_go(board: BenchBoard) -> None:
    choose = random.Random(len(board.pins))
    held = set()
    board.write(OPEN)
    for _ in range(150):
        for _ in range(choose.randrange(6)):
            pair = (choose.randrange(len(board.pins)), choose.randrange(len(board.pins)))
            if pair[0] != pair[1]:
                board.switch(pair, choose.random() < 0.6)
        pin = choose.randrange(len(board.pins))
        board.c.host_hold(pin, pin not in held)
        held ^= {pin}
        board.hear(choose.randrange(12))
    board.hear(40)
    assert held <= board.high
    board.c.host_send_packet(3, b"?\n", 2)
    board.hear(200)
    assert board.high == held
    assert board.told == {pair for pair in board.closed if pair[0] not in held}


def answers(board: BenchBoard) -> list[str]:
    """Ask for everything; return what the board answers for itself."""
    board.c.host_send_packet(3, b"?\n", 2)
    return [line for line in board.hear(60) if line.startswith(("fact", "rises"))]


def run(board: BenchBoard, turns: int, microseconds: int, frames_each: int) -> None:
    """Let turns pass that each take so long, with a frame at every so many."""
    for turn in range(turns):
        board.c.host_run(microseconds, turn % frames_each == 0)
        board.turn()
        board.read()


def test_registers_are_told_in_hex_and_measurements_in_decimals(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(60)
    run(board, 3000, 500, 2)
    board.c.host_rise(0, 12)
    board.c.host_rise(1, 0xFF)
    board.c.host_rise(2, 100)
    lines = answers(board)
    assert lines[:4] == [
        "fact chip 00C0FFEE",
        "fact fuses 00",
        "fact turn 500",
        "fact clock 1024000 1024",
    ]
    assert lines[4:7] == [
        f"rises {board.pins[0]} 12",
        f"rises {board.pins[1]} never",
        f"rises {board.pins[2]} 100",
    ]
    assert len(lines) == 4 + len(board.pins)


def test_a_clock_that_is_off_is_told_by_as_much(board: BenchBoard) -> None:
    board.write(OPEN)
    run(board, 2 * 1100, 504, 2)
    assert "fact clock 1032192 1024" in answers(board)


def test_a_measurement_in_which_the_bus_was_still_is_not_told(board: BenchBoard) -> None:
    board.write(OPEN)
    run(board, 2 * 900, 500, 2)
    run(board, 40, 500, 1000)
    run(board, 2 * 900, 500, 2)
    assert not any(line.startswith("fact clock") for line in answers(board))
    run(board, 2 * 200, 500, 2)
    assert "fact clock 1024000 1024" in answers(board)


def test_the_time_asleep_is_no_long_turn(board: BenchBoard) -> None:
    board.write(OPEN)
    run(board, 100, 500, 2)
    board.c.host_bus(2)
    board.turn()
    board.c.host_run(100_000, 0)
    board.c.host_bus(4)
    run(board, 100, 500, 2)
    assert "fact turn 500" in answers(board)


@pytest.mark.parametrize("microseconds", [0, 4, 8, 100, 1000, 9996, 10_000, 262_140])
def test_a_turn_is_told_in_decimals_of_any_length(board: BenchBoard, microseconds: int) -> None:
    board.c.host_run(microseconds, 0)
    board.write(OPEN)
    assert f"fact turn {microseconds}" in answers(board)


def test_a_pin_never_meets_itself(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.switch((3, 3), True)
    assert board.hear(20) == []


def test_what_waits_to_be_told_is_told_along_with_everything(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.switch((0, 1), True)
    board.scan(10)  # its line waits in the endpoint
    board.switch((2, 1), True)
    board.scan(10)
    board.c.host_send_packet(3, b"?\n", 2)
    lines = board.hear(20)
    assert lines[-1] == "ready"
    assert lines[-2] == f"{board.pins[2]} > {board.pins[1]} closed"


def test_lines_set_again_while_the_port_is_open_change_nothing(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.write(OPEN)
    assert board.hear(20) == []


def test_time_asleep_is_no_time_in_which_a_reading_lasts(board: BenchBoard) -> None:
    board.write(OPEN)
    board.hear(20)
    board.switch((0, 1), True)
    assert board.hear(1) == []
    board.c.host_bus(2)
    board.turn(5)
    board.c.host_bus(4)
    assert board.hear(COUNTS_MS) == []
    assert len(board.hear(1 + COUNTED_MS)) == 1


def test_a_port_that_was_never_open_is_not_closed_either(board: BenchBoard) -> None:
    board.write(SET_LINE, (1200).to_bytes(4, "little") + bytes([0, 0, 8]))
    board.write(CLOSE)
    board.scan(40)
    assert board.c.host_boot_loads() == 0


@pytest.mark.parametrize(
    ("baud", "leaves"),
    [(1200, True), (1201, False), (1200 + 256, False), (1200 + (1 << 24), False)],
)
def test_only_1200_baud_leaves_and_not_before_the_host_has_its_answer(
    board: BenchBoard, baud: int, leaves: bool
) -> None:
    board.write(OPEN)
    board.write(SET_LINE, baud.to_bytes(4, "little") + bytes([0, 0, 8]))
    board.scan(30)
    assert board.c.host_boot_loads() == 0
    board.write(CLOSE)
    board.scan(20)
    assert board.c.host_boot_loads() == 0
    board.scan(2)
    assert (board.c.host_boot_loads() > 0) == leaves


@pytest.mark.few(2)
@pytest.mark.parametrize(
    ("controller", "compiler"), in_turn(["at90usb162", "at90usb1286", "rp2040"], COMPILERS)
)
def test_a_long_random_run_is_clean_under_the_sanitizers(
    controller: str, compiler: str, tmp_path: Path
) -> None:
    tree = write_tree(bench_tree(host_bench(controller)), tmp_path)
    files = [*sources(tree, with_usb=True), SOAK]
    options = (*SANITIZERS, f"-I{tree}")
    soak = compile_c(tree, tmp_path / "soak", files, compiler, *options)
    done = subprocess.run([soak, "7", "60000"], capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (0, "60000 turns, 0 faults\n"), done.stderr


@pytest.mark.parametrize("compiler", COMPILERS)
def test_it_links_freestanding_on_the_empty_port(compiler: str, tmp_path: Path) -> None:
    known = profile("at90usb162")
    view = bench_view(known, FAMILIES["avr"], port="template")
    tree = write_tree(bench_tree(view), tmp_path)
    files = sorted(tree.rglob("*.c"))
    assert compile_c(tree, tmp_path / "whole", files, compiler, "-ffreestanding").is_file()
