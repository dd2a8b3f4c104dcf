"""Every key of every example, closed through its diode on the emulated chip, says what it should.

The chip is libsimavr's ATmega32U4 or AT90USB162, or rp2040py's RP2040; the reports are decoded by
hid-tools with the descriptor that the chip itself gave. Emulated, not silicon.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from matrixgen.families import FAMILIES
from matrixgen.model import Action, HoldLayer, Keyboard, LatchLayer, Press
from tests.emulators.usb_host import UsbHost
from tests.examples.decoding import Decoder
from tests.examples.shipped import COMPILERS, NAMES, Board, board, example
from tests.reports import first_usages

EVERY = [(name, family, kind) for name in NAMES for family in FAMILIES for kind in COMPILERS]
FIRST_MODIFIER = 0xE0


def test_the_examples_are_of_five_kinds_at_least() -> None:
    assert len(NAMES) >= 5
    assert {example(name).profile.chip for name in NAMES} >= {"ATmega32U4", "AT90USB162"}


class Desk:
    """One example on an emulated chip, plugged in, and a person who presses one key at a time."""

    def __init__(self, chip: Board, keyboard: Keyboard) -> None:
        self.chip = chip
        self.host = UsbHost(chip)
        self.decoder = Decoder(self.host.enumerate().report)
        self.host.set_idle(0)
        self.debounce = int(keyboard.debounce_ms.value) + 3
        assert self.host.poll(10) == []

    def press(self, key: str) -> list[set[int]]:
        self.chip.close_key(key)
        return [self.usages(report) for report in self.host.poll(3)]

    def release(self, key: str) -> list[set[int]]:
        self.chip.open_key(key)
        return [self.usages(report) for report in self.host.poll(self.debounce)]

    def usages(self, report: bytes) -> set[int]:
        """What a report says is down: the same to a set-up screen, which reads eight bytes of it.

        This host never asked for the boot protocol, as some of those never do.
        """
        down = self.decoder.usages(report)
        assert first_usages(report) == down
        return down


@pytest.fixture(scope="module", params=EVERY, ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[tuple[Desk, Keyboard]]:
    name, family, kind = request.param
    keyboard = example(name, family).keyboard
    with board(name, kind, family) as chip:
        yield Desk(chip, keyboard), keyboard


def usages_of(action: Action) -> set[int]:
    """What a host must see down while a key with this action is."""
    if not isinstance(action, Press):
        return set()
    modifiers = {FIRST_MODIFIER + bit for bit in range(8) if action.modifiers >> bit & 1}
    return modifiers | ({action.usage} if action.usage else set())


def cells_with(keyboard: Keyboard, *on: str) -> dict[str, Action]:
    """What each key does with the base layer and these others on; the later in the file wins."""
    cells: dict[str, Action] = {}
    for layer in keyboard.layers:
        if layer.name.text in ("base", *on):
            cells |= {cell.key.text: cell.action for cell in layer.cells}
    return cells


def check_key(desk: Desk, key: str, action: Action) -> None:
    down = usages_of(action)
    assert desk.press(key) == ([down] if down else []), f"pressing {key}"
    assert desk.release(key) == ([set()] if down else []), f"releasing {key}"


def leading_to(
    cells: dict[str, Action], kind: type[HoldLayer] | type[LatchLayer]
) -> dict[str, str]:
    """Return the key that leads to each layer in one step."""
    return {action.layer: key for key, action in cells.items() if isinstance(action, kind)}


def test_every_key_of_the_base_layer(desk: tuple[Desk, Keyboard]) -> None:
    at, keyboard = desk
    cells = cells_with(keyboard)
    assert set(cells) == {key.name.text for key in keyboard.keys}
    for key, action in cells.items():
        if not isinstance(action, LatchLayer):
            check_key(at, key, action)


def test_every_key_of_every_layer_that_is_held(desk: tuple[Desk, Keyboard]) -> None:
    at, keyboard = desk
    for layer, holder in leading_to(cells_with(keyboard), HoldLayer).items():
        assert at.press(holder) == []
        for key, action in cells_with(keyboard, layer).items():
            if key != holder and not isinstance(action, LatchLayer):
                check_key(at, key, action)
        assert at.release(holder) == []


def test_every_key_of_every_layer_that_is_latched(desk: tuple[Desk, Keyboard]) -> None:
    at, keyboard = desk
    for holder, held in ways_to_latches(keyboard):
        for layer, latch in leading_to(cells_with(keyboard, *held), LatchLayer).items():
            tap_within(at, holder, latch)
            for key, action in cells_with(keyboard, layer).items():
                if not isinstance(action, LatchLayer):
                    check_key(at, key, action)
            tap_within(at, holder, latch)
    check_key(at, *next(iter(press_cells(keyboard))))


def ways_to_latches(keyboard: Keyboard) -> list[tuple[str | None, tuple[str, ...]]]:
    """Return where latches are to be looked for: the base layer, and each layer held from there.

    A held layer counts only for latches that the base layer does not have.
    """
    base = cells_with(keyboard)
    ways: list[tuple[str | None, tuple[str, ...]]] = [(None, ())]
    for layer, holder in leading_to(base, HoldLayer).items():
        new = set(leading_to(cells_with(keyboard, layer), LatchLayer))
        if new - set(leading_to(base, LatchLayer)):
            ways.append((holder, (layer,)))
    return ways


def press_cells(keyboard: Keyboard) -> Iterator[tuple[str, Action]]:
    return ((key, action) for key, action in cells_with(keyboard).items() if usages_of(action))


def tap_within(at: Desk, holder: str | None, latch: str) -> None:
    if holder:
        assert at.press(holder) == []
    assert at.press(latch) == []
    assert at.release(latch) == []
    if holder:
        assert at.release(holder) == []
