"""A load that is cut off at any byte leaves the boot loader as it was, and a second one works."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from matrixgen.failure import Failure
from matrixgen.families import AVR
from matrixgen.load.avr109 import Avr109
from matrixgen.load.flashing import FlashJob, write_flash
from matrixgen.load.link import opened
from tests.load.loader import Chip, HeldChip, InMemory, Killed, OnTerminal
from tests.load.stick_images import hex_of, image_of
from tests.patience import HANGS_S

FLASH = AVR.flash_of("ATmega32U4")
assert FLASH is not None
IMAGE = image_of(1500)
JOB = FlashJob(IMAGE, FLASH, 28672)
OLD = random.Random(5).randbytes(28672)


def chip_with_a_program(**facts) -> Chip:
    chip = Chip(**facts)
    chip.flash[: chip.loader_start] = OLD[: chip.loader_start]
    return chip


def load_through(link) -> None:
    loader = Avr109(link)
    loader.wake()
    write_flash(loader, JOB, lambda: None)


def is_loaded(chip: Chip) -> bool:
    return chip.program == IMAGE.ljust(chip.loader_start, b"\xff")


def bytes_of_a_load() -> int:
    line = InMemory(Chip())
    load_through(line)
    return line.sent


@pytest.mark.parametrize("power_is_cut", [False, True])
def test_cut_off_after_any_byte_the_loader_is_whole_and_a_second_load_works(power_is_cut):
    for last in range(bytes_of_a_load()):
        chip = chip_with_a_program()
        with pytest.raises(Killed):
            load_through(InMemory(chip, last))
        assert chip.flash[chip.loader_start :] == chip.loader_share, last
        if power_is_cut:
            chip.power_on()
        load_through(InMemory(chip))
        assert is_loaded(chip), last
        assert chip.flash[chip.loader_start :] == chip.loader_share, last


def test_cut_off_after_any_byte_no_half_program_can_start():
    """The first word is erased, or the old program is there, or the new one, whole."""
    states = set()
    for last in range(bytes_of_a_load()):
        chip = chip_with_a_program()
        with pytest.raises(Killed):
            load_through(InMemory(chip, last))
        erased = chip.flash[:2] == b"\xff\xff"
        assert erased or chip.program == OLD or is_loaded(chip), last
        states.add("erased" if erased else "old" if chip.program == OLD else "new")
    assert states == {"erased", "old", "new"}


def test_a_load_sends_no_command_that_writes_fuses_lock_bits_or_eeprom():
    chip = Chip()
    load_through(InMemory(chip))
    assert set(chip.commands) <= set(b"\x1bSpstTPbeABgLE")


def test_unplugged_in_the_middle_is_told_and_a_second_load_works():
    chip = chip_with_a_program()
    with (
        opened(OnTerminal(chip, last=bytes_of_a_load() // 2).path) as link,
        pytest.raises(Failure) as told,
    ):
        load_through(link)
    assert told.value.text == "the board went away in the middle"
    assert "load again" in told.value.helps[0]
    chip.power_on()
    with opened(OnTerminal(chip).path) as link:
        load_through(link)
    assert is_loaded(chip)


def test_killed_by_a_signal_in_the_middle_a_second_load_works(tmp_path: Path):
    image = image_of(20000)
    (tmp_path / "x.hex").write_text(hex_of(image), "ascii")
    chip = HeldChip()
    chip.flash[: chip.loader_start] = OLD
    port = OnTerminal(chip)
    words = ["load", str(tmp_path / "x.hex"), "--controller", "stick-32u4", "--port", port.path]
    for blocks in (1, 40, 90):
        chip.hold_at(blocks)
        started = subprocess.Popen([sys.executable, "-m", "matrixgen", *words])
        assert chip.is_there.wait(HANGS_S), "it never came so far"
        os.kill(started.pid, signal.SIGKILL)
        started.wait()
        chip.goes_on.set()
        assert chip.program[: len(image)] != image
        assert chip.flash[chip.loader_start :] == chip.loader_share
    with opened(port.path) as link:
        load_through(link)
    assert is_loaded(chip)


def test_a_loader_that_stops_answering_is_told(monkeypatch):
    class Deaf(InMemory):
        def read(self, count, seconds):
            return b"" if self.sent > 900 else super().read(count, seconds)

    with pytest.raises(Failure) as told:
        load_through(Deaf(Chip()))
    assert told.value.text == "the boot loader stopped answering"
    assert "load again" in told.value.helps[0]


def test_a_cell_that_does_not_take_what_is_written_is_told_with_its_place():
    chip = Chip()
    chip.broken_cell = next(at for at in range(300, 700) if not IMAGE[at] & 0x10)
    with pytest.raises(Failure) as told:
        load_through(InMemory(chip))
    assert f"at 0x{chip.broken_cell:04X} the flash reads" in told.value.text
    assert chip.flash[:2] == b"\xff\xff", "what is wrong is not started"


@pytest.mark.parametrize(
    ("facts", "text"),
    [
        (
            {"signature": b"\x1e\x94\x88"},
            "the chip's signature is 1E 94 88, but that of an ATMEGA32U4 is 1E 95 87: this is "
            "another board",
        ),
        ({"page_bytes": 64}, "the boot loader does not take a whole page at once"),
    ],
)
def test_another_chip_or_loader_is_refused_before_anything_is_erased(facts, text):
    chip = chip_with_a_program(**facts)
    with pytest.raises(Failure) as told:
        load_through(InMemory(chip))
    assert told.value.text.startswith(text)
    assert chip.program == OLD


def test_an_image_that_reaches_into_the_loader_s_share_is_refused_before_anything_is_erased():
    chip = chip_with_a_program()
    loader = Avr109(InMemory(chip))
    with pytest.raises(Failure, match="takes 28,673 bytes, but the boot loader begins"):
        write_flash(loader, FlashJob(bytes(28673), FLASH, 28672), lambda: None)
    assert chip.program == OLD and not chip.commands


def test_what_speaks_otherwise_is_no_boot_loader():
    class Chatty(InMemory):
        def read(self, count, seconds):
            return b"ok\r\nok\r\nok\r\n"[:count]

    for line in (Chatty(Chip()), Mute()):
        with pytest.raises(Failure, match="no boot loader that speaks AVR109 answers there"):
            Avr109(line).wake()


class Mute:
    def write(self, data): ...

    def drain(self): ...

    def read(self, count, seconds):
        return b""
