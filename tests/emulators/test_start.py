"""What start.c promises to main(): variables with their values, the rest of them 0, nothing else.

No variable of a keyboard begins as anything but 0, so that a program of its own is started here.
"""

from __future__ import annotations

import functools

import pytest

from matrixgen.families import CompilerKind
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard
from tests.emulators.images import compiled, whole_tree_of
from tests.emulators.keyboards import profile, square
from tests.emulators.rp2040.board import Rp2040Board

VALUES = bytes((7 * place + 3) % 251 + 1 for place in range(300))
ZEROS = {"atmega32u4": 300, "at90usb162": 100, "rp2040": 300}
"""More than a page of each, so that both bytes of an end count; the smallest chip has 512 bytes."""

BEHIND = bytes([0xA5] * 64)
"""RAM is full of this before."""

PROGRAM = """
#include <stdint.h>

static volatile uint8_t values[] = {VALUES};
static volatile uint8_t zeros[ZEROS];

int main(void)
{
    for (;;) {
        (void)values[0];
        (void)zeros[0];
    }
}
"""
STARTS_MS = 3


def program_for(chip: str) -> dict[str, bytes]:
    """Return a keyboard's firmware with another main()."""
    values = ", ".join(map(str, VALUES))
    program = PROGRAM.replace("VALUES", values).replace("ZEROS", str(ZEROS[chip]))
    return whole_tree_of(square(2, controller=chip)) | {"main.c": program.encode()}


@functools.cache
def built(chip: str, kind: CompilerKind) -> Image:
    return compiled(program_for(chip), profile(chip), kind)


class Started(Rp2040Board):
    """A chip that is not going to show itself to a host."""

    def until_attached(self, patience_ms: int = STARTS_MS) -> None:
        self.run(patience_ms * self.cycles_per_ms)


def ram_after_start(chip: str, image: Image) -> bytes:
    """Return what RAM begins with, once main() runs."""
    size = len(VALUES) + ZEROS[chip] + len(BEHIND)
    if chip == "rp2040":
        started = Started(
            image.flash, before_power=lambda one: one.sram.__setitem__(slice(size), b"\xa5" * size)
        )
        return bytes(started.rp2040.sram[:size])
    board = AvrBoard(image, profile(chip))
    board.wait(STARTS_MS)
    found = bytes(board.peek(0x100 + place) for place in range(size))
    board.close()
    return found


@pytest.mark.chips_in_turn
@pytest.mark.parametrize("kind", ["gcc", "clang"])
@pytest.mark.parametrize("chip", ZEROS)
def test_variables_have_their_values_and_what_is_behind_them_is_left_alone(
    chip: str, kind: CompilerKind
) -> None:
    assert ram_after_start(chip, built(chip, kind)) == VALUES + bytes(ZEROS[chip]) + BEHIND
