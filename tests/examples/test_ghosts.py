"""Examples without their diodes: what the checks say of ghosts, and what the chip types.

The firmware runs on libsimavr's ATmega32U4, whose matrix is a network of switches and diodes (see
`tests/emulators/avr/board.c`); reports are decoded by hid-tools. Emulated, not silicon.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from random import Random

import pytest

from matrixgen.boards import Mounted
from matrixgen.circuit.fewest_diodes import fewest_diodes
from matrixgen.circuit.ghosts import minimal_ghosts
from matrixgen.circuit.network import Network
from matrixgen.model import BootLoader, Cell, Keyboard, Layer, Press, Word, matrix_of
from matrixgen.record import changed
from tests.amounts import amount
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.images import image_of
from tests.emulators.usb_host import UsbHost
from tests.examples.decoding import Decoder
from tests.examples.shipped import example

FIRST_USAGE = 0x04
NAMES = ("heron-12", "avocet-42", "knot-21")
RANDOM_SETS = amount("MATRIXGEN_SETS", suite=40, long=3000)


def plain(keyboard: Keyboard, bare: Iterable[str]) -> Keyboard:
    """The keyboard with a usage of its own at each key, and no diode at some of them."""
    cells = tuple(
        Cell(key.name, key.name, Press(FIRST_USAGE + place))
        for place, key in enumerate(keyboard.keys)
    )
    base = keyboard.layers[0]
    layer = Layer(name=base.name, cells=cells, is_picture=False, span=base.span)
    without = tuple(Word(key, base.span) for key in bare)
    return changed(
        keyboard,
        layers=(layer,),
        boot_loader=BootLoader(),
        wiring=changed(keyboard.wiring, without_diode=without, reversed=()),
    )


class Fingers:
    """Fingers on a board, and what the computer says is down."""

    def __init__(self, chip: AvrBoard, keyboard: Keyboard) -> None:
        self._chip = chip
        self._names = {
            FIRST_USAGE + place: key.name.text for place, key in enumerate(keyboard.keys)
        }
        self._host = UsbHost(chip)
        self._decoder = Decoder(self._host.enumerate().report)
        self._host.set_idle(0)
        self._up_ms = int(keyboard.debounce_ms.value) + 4
        self._host.poll(10)

    def seen(self, keys: Iterable[str]) -> set[str]:
        """Press keys at one moment and let go again; return the keys that were seen down."""
        down = list(keys)
        for key in down:
            self._chip.close_key(key)
        reports = self._host.poll(3 + 2 * len(down))
        for key in down:
            self._chip.open_key(key)
        last = self._host.poll(self._up_ms + 2 * len(down))
        assert self._decoder.usages(last[-1]) == set(), "keys stay down"
        return {self._names[usage] for usage in self._decoder.usages(reports[-1])}


@contextmanager
def fingers_on(name: str, bare: Iterable[str] | None) -> Iterator[tuple[Fingers, Keyboard]]:
    """Return fingers on an example, of which some keys, or all, have no diode."""
    shipped = example(name, "avr").mounted
    everyone = [key.name.text for key in shipped.keyboard.keys]
    keyboard = plain(shipped.keyboard, everyone if bare is None else bare)
    mounted = Mounted(keyboard, shipped.mounting, shipped.profile)
    with board(image_of(mounted, "gcc"), mounted) as chip:
        yield Fingers(chip, keyboard), keyboard


@pytest.mark.few(2)
@pytest.mark.parametrize("name", NAMES)
def test_without_diodes_every_ghost_is_typed_and_nothing_that_is_none(name: str) -> None:
    chance = Random(name)
    with fingers_on(name, None) as (fingers, keyboard):
        ghosts = list(minimal_ghosts(Network(matrix_of(keyboard))))
        assert len(ghosts) > 5
        for ghost in ghosts:
            assert fingers.seen(ghost.keys) == ghost.keys | {ghost.seen.key}
        sets = {ghost.keys for ghost in ghosts}
        keys, safe = [key.name.text for key in keyboard.keys], 0
        for _ in range(RANDOM_SETS):
            pressed = frozenset(chance.sample(keys, chance.randint(2, 5)))
            if not any(one <= pressed for one in sets):
                assert fingers.seen(pressed) == pressed
                safe += 1
        assert safe > RANDOM_SETS / 10


@pytest.mark.parametrize("name", NAMES)
def test_with_the_fewest_diodes_any_keys_at_all_are_told_apart(name: str) -> None:
    chance = Random(name)
    keys = [key.name.text for key in example(name, "avr").keyboard.keys]
    matrix = matrix_of(plain(example(name, "avr").keyboard, keys))
    diodes = fewest_diodes(matrix, lambda ghost: True)
    with fingers_on(name, set(keys) - set(diodes)) as (fingers, _):
        for _ in range(RANDOM_SETS):
            pressed = set(chance.sample(keys, chance.randint(2, min(12, len(keys)))))
            assert fingers.seen(pressed) == pressed
