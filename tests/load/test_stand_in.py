"""The stand-in for a boot loader against `avrdude`, and what we load against what it loads."""

from __future__ import annotations

import random
import subprocess
from pathlib import Path

import pytest

from matrixgen.families import AVR
from matrixgen.load.avr109 import Avr109
from matrixgen.load.flashing import FlashJob, write_flash
from matrixgen.load.link import opened
from tests.load.loader import Chip, OnTerminal
from tests.load.stick_images import hex_of, image_of
from tests.patience import HANGS_S

CHIPS = {
    "m32u4": ("atmega32u4", {}),
    "m16u4": ("atmega16u4", {"flash_bytes": 16384, "signature": b"\x1e\x94\x88"}),
    "usb162": ("at90usb162", {"flash_bytes": 16384, "signature": b"\x1e\x94\x82"}),
    "usb1286": (
        "at90usb1286",
        {
            "flash_bytes": 131072,
            "loader_bytes": 8192,
            "page_bytes": 256,
            "signature": b"\x1e\x97\x82",
        },
    ),
}
"""Chips by their names in avrdude's own list, which holds their signatures and pages too."""


def avrdude(port: str, part: str, *words: str) -> subprocess.CompletedProcess[str]:
    command = ["avrdude", "-c", "avr109", "-p", part, "-P", port, *words]
    return subprocess.run(command, capture_output=True, text=True, timeout=HANGS_S)


@pytest.mark.parametrize(
    ("part", "size"), [("m32u4", 28672), ("m16u4", 1001), ("usb162", 128), ("usb1286", 70001)]
)
def test_the_memory_after_ours_is_the_memory_after_avrdude_s(
    part: str, size: int, tmp_path: Path
) -> None:
    name, facts = CHIPS[part]
    image = image_of(size)
    (tmp_path / "x.hex").write_text(hex_of(image), "ascii")
    theirs, ours = Chip(**facts), Chip(**facts)
    for chip in (theirs, ours):  # an older program is there
        chip.flash[: chip.loader_start] = random.Random(1).randbytes(chip.loader_start)
    done = avrdude(OnTerminal(theirs).path, part, "-U", f"flash:w:{tmp_path}/x.hex:i")
    assert done.returncode == 0, done.stderr
    assert f"{size} bytes of flash verified" in done.stderr
    flash = AVR.flash_of(name)
    assert flash is not None
    with opened(OnTerminal(ours).path) as link:
        loader = Avr109(link)
        assert loader.wake() == "STANDIN"
        write_flash(loader, FlashJob(image, flash, ours.loader_start), lambda: None)
    assert ours.flash == theirs.flash
    assert ours.program[:size] == image and not ours.program[size:].strip(b"\xff")
    assert ours.flash[ours.loader_start :] == ours.loader_share
    assert ours.started and theirs.started


def test_avrdude_reads_back_through_the_stand_in_what_is_there(tmp_path: Path) -> None:
    chip = Chip()
    chip.flash[:1000] = image_of(1000)
    done = avrdude(OnTerminal(chip).path, "m32u4", "-U", f"flash:r:{tmp_path}/all.bin:r")
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "all.bin").read_bytes() == bytes(chip.flash)


def test_avrdude_too_is_told_of_a_wrong_signature() -> None:
    done = avrdude(OnTerminal(Chip(signature=b"\x1e\x94\x88")).path, "m32u4")
    assert done.returncode != 0
    assert "1E 94 88" in done.stderr.upper() or "1E9488" in done.stderr.upper()
