"""A changed base outlasts power: in the EEPROM of simavr's chips.

7766 section 5.3, "EEPROM Data Memory": EEPE within four cycles after EEMPE, or nothing is written.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from matrixgen.boards import Mounted, builtin_profile
from matrixgen.families import CompilerKind
from matrixgen.source import read_design
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.images import image_of
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import COMPILERS
from tests.reports import any_number

PAD = """
keyboard "Pad"
  controller CHIP
  remember   base

plate
  line A B C

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B C
  column c0 on PB4  A
  column c1 on PB5  B
  column c2 on PB6  C

layer base
  A = change base to other

layer other
  A = change base to base  B = X

layer third
  C = Y
"""
B, X = 0x05, 0x1B
BASE_AT, MARK_AT, EMPTY = 2, 3, 0xFF


@pytest.fixture(
    scope="module",
    params=[(c, k) for c in ("atmega32u4", "at90usb162") for k in COMPILERS],
    ids="-".join,
)
def made(request):
    chip, kind = request.param
    return mounted(PAD.replace("CHIP", chip)), kind


def mounted(text: str) -> Mounted:
    design, findings = read_design("pad.keys", text)
    assert design is not None, findings
    (mounting,) = design.mountings
    profile = builtin_profile(mounting.controller.text)
    assert profile is not None
    return Mounted(design.keyboard, mounting, profile)


@contextmanager
def plugged_in(of: Mounted, kind: CompilerKind, kept: tuple[int, int]) -> Iterator[AvrBoard]:
    with board(image_of(of, kind), of) as chip:
        for address, value in zip((BASE_AT, MARK_AT), kept, strict=True):
            chip.fill_eeprom(address, value)
        chip.host = UsbHost(chip)
        chip.host.enumerate()
        chip.host.set_idle(0)
        yield chip


def typed(chip: AvrBoard, key: str) -> list[bytes]:
    chip.host.poll(2)
    chip.close_key(key)
    reports = chip.host.poll(10)
    chip.open_key(key)
    return [*reports, *chip.host.poll(12)]


def test_a_chip_that_never_kept_anything_starts_at_the_base(made):
    with plugged_in(*made, (EMPTY, EMPTY)) as chip:
        assert typed(chip, "B")[0] == any_number(0, B)


def test_a_base_that_a_key_changed_is_there_after_a_power_cut_and_can_be_changed_back(made):
    with plugged_in(*made, (EMPTY, EMPTY)) as chip:
        typed(chip, "A")
        assert typed(chip, "B")[0] == any_number(0, X)
        kept = chip.eeprom(BASE_AT), chip.eeprom(MARK_AT)
    with plugged_in(*made, kept) as chip:
        assert typed(chip, "B")[0] == any_number(0, X)
        typed(chip, "A")
        assert typed(chip, "B")[0] == any_number(0, B)
        kept = chip.eeprom(BASE_AT), chip.eeprom(MARK_AT)
    with plugged_in(*made, kept) as chip:
        assert typed(chip, "B")[0] == any_number(0, B)


CHANGES = {
    "a layer's name": ("third", "fourth"),
    "a base's name": ("other", "another"),
    "a key": ("C = Y", "C = Z"),
    "a layer beneath": ("layer other", "layer low\n  C = 1\n\nlayer other"),
    "a layer less": ("layer third\n  C = Y\n", ""),
}


@pytest.mark.parametrize(("there", "instead"), CHANGES.values(), ids=CHANGES)
def test_an_image_that_differs_in_nothing_that_matters_believes_it(there, instead):
    old = mounted(PAD.replace("CHIP", "atmega32u4"))
    with plugged_in(old, "gcc", (EMPTY, EMPTY)) as chip:
        typed(chip, "A")
        kept = chip.eeprom(BASE_AT), chip.eeprom(MARK_AT)
    new = mounted(PAD.replace("CHIP", "atmega32u4").replace(there, instead))
    with plugged_in(new, "gcc", kept) as chip:
        assert typed(chip, "B")[0] == any_number(0, X)


def test_an_image_with_more_bases_does_not(made):
    of, kind = made
    with plugged_in(of, kind, (EMPTY, EMPTY)) as chip:
        typed(chip, "A")
        kept = chip.eeprom(BASE_AT), chip.eeprom(MARK_AT)
    more = PAD.replace("CHIP", of.profile.name).replace("C = Y", "C = change base to third")
    with plugged_in(mounted(more), kind, kept) as chip:
        assert typed(chip, "B")[0] == any_number(0, B)


def test_a_byte_that_does_not_fit_the_other_is_not_believed(made):
    """As where the power failed after the first was written, or while one was."""
    of, kind = made
    with plugged_in(of, kind, (EMPTY, EMPTY)) as chip:
        typed(chip, "A")
        base, mark = chip.eeprom(BASE_AT), chip.eeprom(MARK_AT)
    for kept in ((EMPTY, mark), (base, EMPTY), (0, mark), (base, mark ^ base)):
        with plugged_in(of, kind, kept) as chip:
            assert typed(chip, "B")[0] == any_number(0, B)


def test_the_first_two_cells_which_a_failing_power_may_spoil_are_never_written(made):
    with plugged_in(*made, (EMPTY, EMPTY)) as chip:
        for _ in range(3):
            typed(chip, "A")
        assert (chip.eeprom(0), chip.eeprom(1)) == (EMPTY, EMPTY)
        assert chip.eeprom(BASE_AT) != EMPTY


def test_no_key_is_late_while_the_base_is_written(made):
    """7766 table 5-3: a byte takes 3.4 ms; nobody waits for it."""
    with plugged_in(*made, (EMPTY, EMPTY)) as chip:
        chip.host.poll(2)
        chip.close_key("A")
        chip.host.poll(1)
        chip.close_key("B")
        assert chip.host.poll(2)[0] == any_number(0, X)
        chip.host.poll(10)
        kept = chip.eeprom(BASE_AT), chip.eeprom(MARK_AT)
    with plugged_in(*made, kept) as chip:
        assert typed(chip, "B")[0] == any_number(0, X)
