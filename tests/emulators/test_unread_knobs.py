"""For how long knobs are left unread while keys are decided and reported, against what is told.

Emulated. By both compilers: what is told has to hold for the slower image.
"""

from __future__ import annotations

from itertools import combinations, islice
from random import Random

import pytest

from matrixgen.circuit.knob_times import KnobTimes
from matrixgen.circuit.settling import Settling
from matrixgen.circuit.timing import total
from matrixgen.families import CompilerKind
from matrixgen.model import matrix_of
from tests.amounts import amount
from tests.emulators.avr.board import AvrBoard, board, pin_number
from tests.emulators.images import image_of
from tests.emulators.keyboards import pad_on
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import COMPILERS

CHANGES = amount("MATRIXGEN_UNREAD", suite=40, long=400)
FINGERS = 8
KEYS = "ABCDEFGHIJKL"
A, B = pin_number("PF0"), pin_number("PF1")
TURNED = ((False, False), (True, False), (True, True), (False, True))
"""The contacts, state by state."""

PAD = """\
keyboard "Unread"
  controller CHIP
  computer us

plate
  line A B C D
  line E F G H
  line I J K L

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r0 on PD0  A to D
  row    r1 on PD1  E to H
  row    r2 on PD2  I to L
  column c0 on PB4  A E I
  column c1 on PB5  B F J
  column c2 on PB6  C G K
  column c3 on PB7  D H L
  knob   n  on PF0 PF1

layer base
  n.left = LeftArrow  n.right = Ctrl+RightArrow
"""


def of_each(phrase: str) -> str:
    return "".join(f"  {key} = {phrase.replace('KEY', key)}\n" for key in KEYS)


def sets(most: int) -> str:
    """Return as many sets, all of which have the same key."""
    others = (some for size in (1, 2, 3) for some in combinations(KEYS[1:], size))
    return "".join(f"  together A {' '.join(some)} = Esc\n" for some in islice(others, most))


LAYERS = {
    "30 sets": sets(30),
    "plain": "",
    "a pointer": "  A = PointerUp  B = PointerLeft  C = Button1  D = WheelUp\n",
    "tap and hold": of_each("tap KEY, hold Shift"),
    "100 sets": sets(100),
    "7 sets": sets(7),
    "a text": '  A = type "Hello, World!"\n  B = type "it", then Enter\n',
    "a set": sets(1),
    "first, second, third": of_each("first KEY, second Esc, third Tab, within 200 ms"),
}


def turn_amid_fingers(chip: AvrBoard, host: UsbHost) -> None:
    """Let fingers press and let go, several at once too, and turn the knob meanwhile."""
    chance, down = Random(2), []
    for change in range(CHANGES):
        for _ in range(chance.randint(1, 3)):
            if down and (len(down) == FINGERS or chance.random() < 0.4):
                chip.open_key(down.pop(chance.randrange(len(down))))
            else:
                down.append(chance.choice([key for key in KEYS if key not in down]))
                chip.close_key(down[-1])
        for pin, grounded in zip((A, B), TURNED[change // 2 % 4], strict=True):
            chip.ground(pin, grounded)
        chip.wait(chance.random())
        host.poll(chance.choice((1, 1, 2, 3, 8, 30)))


@pytest.mark.few(2)
@pytest.mark.parametrize(
    ("layer", "kind"), [(layer, kind) for kind in reversed(COMPILERS) for layer in LAYERS]
)
def test_knobs_are_left_unread_no_longer_than_told(layer: str, kind: CompilerKind) -> None:
    """No line is sensed on the port of this knob, so that each reading of it is one of the knob."""
    mounted = pad_on("atmega32u4", PAD + LAYERS[layer])
    matrix = matrix_of(mounted.keyboard)
    terms = KnobTimes(mounted, matrix, Settling(mounted, matrix).firmware_us).unread
    assert terms is not None
    told = total(terms)
    with board(image_of(mounted, kind), mounted) as chip:
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(0)
        host.poll(3)
        chip.watch(A)
        turn_amid_fingers(chip, host)
        longest = chip.longest_unread * 1e6 / mounted.profile.clock_hz
    assert longest < told
    if kind == "clang":  # whose images are slower
        assert told < 2.5 * longest
