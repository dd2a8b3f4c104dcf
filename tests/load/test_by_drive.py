"""`matrixgen load` for boards whose boot loader is a drive, as a maker meets it."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from matrixgen.cli.main import main
from matrixgen.load import copying
from tests.load.drive import FolderDrive
from tests.load.table import PICO
from tests.toolchain.hex_file import from_hex


@pytest.mark.parametrize("given", [False, True])
def test_a_keyboard_is_copied_to_the_drive_and_the_drive_goes(table, given):
    drive = FolderDrive(table.folder / "RPI-RP2")
    table.mount(drive.path)
    words = ("--mount", str(drive.path)) if given else ()
    status, out, err = table.load(table.write("pad.keys", PICO), *words)
    assert (status, err) == (0, "")
    assert "the board has restarted with them" in out and not drive.path.exists()
    assert main(["build", "pad.keys"]) == 0
    built = from_hex(Path("pad/pad.hex").read_text())
    assert drive.flash == built.ljust(len(drive.flash), b"\xff")


@pytest.fixture
def uf2(table) -> bytes:
    assert main(["build", table.write("pad.keys", PICO)]) == 0
    return Path("pad/pad.uf2").read_bytes()


def test_a_drive_that_is_plugged_in_later_is_waited_for(table, uf2):
    made = FolderDrive(table.folder / "RPI-RP2")
    table.later(50, lambda: table.mount(made.path))
    status, out, _ = table.load("pad/pad.uf2")
    assert status == 0 and "hold the board's boot button down" in out


def test_a_drive_that_goes_early_is_told_and_a_second_try_works(table, uf2, monkeypatch):
    monkeypatch.setattr(copying, "PIECE_BYTES", 512)
    early = FolderDrive(table.folder / "RPI-RP2", early=2048)
    table.mount(early.path)
    status, _, err = table.load("pad/pad.uf2")
    assert (status, early.flash) == (2, b"")
    assert err.startswith("matrixgen: the drive went away before it had the whole image")
    assert "nothing is broken" in err
    FolderDrive(table.folder / "RPI-RP2")
    assert table.load("pad/pad.uf2")[0] == 0


def test_the_complaint_of_the_system_about_the_last_piece_is_no_failure(table, uf2, monkeypatch):
    drive = FolderDrive(table.folder / "RPI-RP2")
    table.mount(drive.path)

    def fails_as_it_goes(handle: int) -> None:
        FolderDrive.all_look()
        if not drive.path.exists():
            raise OSError(errno.EIO, "Input/output error")

    monkeypatch.setattr(os, "fsync", fails_as_it_goes)
    assert table.load("pad/pad.uf2")[0] == 0
    assert not drive.path.exists()


def test_a_full_drive_is_told(table, uf2):
    drive = FolderDrive(table.folder / "RPI-RP2", info="Board-ID: RPI-RP2\n")
    drive.stay()
    (drive.path / "pad.uf2").symlink_to("/dev/full")
    status, _, err = table.load("pad/pad.uf2", "--mount", str(drive.path))
    assert (status, "does not take the image: no space left on device" in err) == (2, True), err


def test_a_drive_that_may_not_be_written_is_told(table, uf2, monkeypatch):
    drive = FolderDrive(table.folder / "RPI-RP2")

    opened = os.open

    def refuses(path, flags, *more, **named):
        if flags & (os.O_WRONLY | os.O_RDWR):
            raise OSError(errno.EROFS, "Read-only file system")
        return opened(path, flags, *more, **named)

    monkeypatch.setattr(copying.os, "open", refuses)
    status, _, err = table.load("pad/pad.uf2", "--mount", str(drive.path))
    assert (status, "you may not write to" in err and "read-only file system" in err) == (
        2,
        True,
    ), err


def test_a_drive_that_stays_is_told(table, uf2):
    drive = FolderDrive(table.folder / "RPI-RP2")
    drive.stay()
    status, _, err = table.load("pad/pad.uf2", "--mount", str(drive.path))
    assert (status, "still there: the board did not take it" in err) == (2, True), err


def test_another_board_s_drive_is_left_alone(table, uf2):
    drive = FolderDrive(table.folder / "D", info="Model: Other\nBoard-ID: RP2350\n")
    status, _, err = table.load("pad/pad.uf2", "--mount", str(drive.path))
    assert (status, "belongs to a `RP2350`" in err) == (2, True), err
    assert not (drive.path / "pad.uf2").exists()
    assert "is not a boot loader's drive" in table.load("pad/pad.uf2", "--mount", "pad")[2]
    assert "no boot loader's drive has appeared" in table.load("pad/pad.uf2")[2]
    assert "not by a port" in table.load("pad/pad.uf2", "--port", "x")[2]


def changed_word(data: bytes, offset: int, value: int) -> bytes:
    return data[:offset] + value.to_bytes(4, "little") + data[offset + 4 :]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda data: data[:-1], "it is not a UF2 file, or only a part of one"),
        (lambda data: b"", "it is not a UF2 file, or only a part of one"),
        (lambda data: changed_word(data, 508, 0), "it is not a UF2 file, or only a part of one"),
        (lambda data: data[:-512], "the image is not complete"),
        (lambda data: changed_word(data, 8, 1), "the image is not complete"),
        (lambda data: data + data[-512:], "the image is not complete"),
        (lambda data: changed_word(data, 28, 0xE48BFF59), "the image is for another chip"),
        (
            lambda data: changed_word(data, 8, 0),
            "the image is for another chip: its UF2 family is not",
        ),
        (lambda data: changed_word(data, 16, 128), "block 0 is not one that the boot ROM takes"),
        (
            lambda data: changed_word(data, 12, 0x10000080),
            "block 0 is not one that the boot ROM takes",
        ),
        (
            lambda data: changed_word(data, 12, 0x0FFFFF00),
            "block 0 is not one that the boot ROM takes",
        ),
        (lambda data: changed_word(data, 12, 0x10200000), "the image reaches to 2,097,408 bytes"),
    ],
)
def test_a_uf2_file_that_the_boot_rom_would_not_take_whole_is_not_copied(table, uf2, change, told):
    drive = FolderDrive(table.folder / "RPI-RP2")
    image = table.write("x.uf2", change(uf2))
    status, _, err = table.load(image, "--mount", str(drive.path))
    assert (status, err.startswith(f"matrixgen: {told}")) == (2, True), err
    assert not (drive.path / "x.uf2").exists()
