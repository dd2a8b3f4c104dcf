"""Every key of every example, closed through its diode on the emulated chip, says what it should.

The chip is libsimavr's ATmega32U4 or AT90USB162, or rp2040py's RP2040; the reports are decoded by
hid-tools with the descriptor that the chip itself gave. Emulated, not silicon.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from matrixgen.model import (
    Action,
    ChangeBase,
    FirstSecond,
    HoldLayer,
    InTurn,
    Keyboard,
    LatchLayer,
    Media,
    OnceLayer,
    OnceModifiers,
    Pause,
    Pointer,
    Press,
    TapHold,
    WithModifier,
    matrix_of,
)
from tests.emulators.usb_host import UsbHost
from tests.examples.decoding import Decoder, Usage
from tests.examples.shipped import BUILDS, NAMES, Board, board, example
from tests.examples.test_random_fingers import POINTER_REPORT
from tests.layouts.computer import CAPS_LOCK_LED
from tests.layouts.x11 import CAPS_LOCK
from tests.reports import BOOT_BYTES, first_usages

FIRST_MODIFIER = 0xE0
APART_MS = 220
"""So long after another key a press belongs to no roll, and is no second tap."""

Down = set[int] | set[Usage]


def test_the_examples_are_of_five_kinds_at_least() -> None:
    assert len(NAMES) >= 5
    assert {example(name).profile.chip for name in NAMES} >= {"ATmega32U4", "AT90USB162"}


def test_one_of_them_senses_more_lines_than_an_int_of_an_avr_has_bits() -> None:
    assert any(len(matrix_of(example(name).keyboard).senses) > 16 for name in NAMES)


class Desk:
    """One example on an emulated chip, plugged in, and a person who presses one key at a time."""

    def __init__(self, chip: Board, keyboard: Keyboard) -> None:
        self.chip = chip
        self.host = UsbHost(chip)
        descriptors = self.host.enumerate()
        self.decoder, self.media = Decoder(descriptors.report), None
        self.moving: Down | None = None
        if descriptors.configuration[4] == 2:
            self.media = Decoder(self.host.interface_descriptor(0x22, interface=1))
        self.host.set_idle(0)
        self.debounce = int(keyboard.debounce_ms.value) + 3
        self.pace = keyboard.effective.pace_ms
        sets = [one for layer in keyboard.layers for one in layer.together]
        self.waits_ms = {
            key: max(one.within_ms for one in sets) for one in sets for key in one.key_names
        }
        assert self.wait(10) == []

    def wait(self, milliseconds: int) -> list[Down]:
        """What is told meanwhile: usages of the keyboard, pages and usages of media keys."""
        if self.media is None:
            return [self.usages(report) for report in self.host.poll(milliseconds)]
        told: list[Down] = []
        for _ in range(milliseconds):
            keyboard, media = self.host.poll_both(1)
            told += map(self.usages, keyboard)
            told += [down for report in media for down in self.seconds(report, self.media)]
        return told

    def seconds(self, report: bytes, media: Decoder) -> list[Down]:
        """Return what a report of the second interface says is down; what moves on says it once."""
        down: Down = media.media(report)
        if report[0] == POINTER_REPORT and any(report[2:]):
            again, self.moving = down == self.moving, down
            return [] if again else [down]
        return [down]

    def press(self, key: str) -> list[Down]:
        """Press a key; one of a set waits for the others until their time is over."""
        self.chip.close_key(key)
        waits_ms = self.waits_ms.get(key, 0)
        told = self.wait(3)
        assert not (waits_ms and told), f"{key} waits for no other key"
        return [*told, *self.wait(waits_ms)]

    def release(self, key: str) -> list[Down]:
        """Let go of a key; that nothing moves any more is as if a report said so."""
        self.chip.open_key(key)
        told = self.wait(self.debounce)
        if self.moving is not None:
            self.moving = None
            told += self.wait(5) or [set()]
        return told

    def begin(self, key: str, action: Action) -> list[Down]:
        """Press a key for what it does while it is held."""
        if isinstance(action, TapHold):
            self.wait(APART_MS)
            return [*self.press(key), *self.wait(action.after_ms)]
        return self.press(key)

    def usages(self, report: bytes) -> set[int]:
        """What a report says is down: the same to a set-up screen, which reads eight bytes of it.

        Some of those never ask for the boot protocol.
        """
        if len(report) == BOOT_BYTES:
            return first_usages(report)
        down = self.decoder.usages(report)
        assert first_usages(report) == down
        return down


@pytest.fixture(scope="module", params=BUILDS, ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[tuple[Desk, Keyboard]]:
    name, family, kind = request.param
    keyboard = example(name, family).keyboard
    with board(name, kind, family) as chip:
        yield Desk(chip, keyboard), keyboard


def told_by(action: Action) -> list[Down]:
    """What a host must see down, one after the other, when a key with this action is tapped."""
    if not isinstance(action, InTurn):
        down = usages_of(action)
        return [down, set()] if down else []
    strokes = [move for move in action.moves if not isinstance(move, Pause)]
    presses = [usages_of(Press(one.usage, one.modifiers)) for one in strokes]
    return [down for pressed in presses for down in (pressed, set())]


def takes_ms(desk: Desk, action: Action) -> int:
    """How long a key goes on telling after it was pressed."""
    moves = [*action.moves] if isinstance(action, InTurn) else []
    waits = sum(move.ms if isinstance(move, Pause) else 2 * desk.pace for move in moves)
    return waits + 3 * desk.pace if moves else 0


def usages_of(action: Action) -> Down:
    """What a host must see down while a key with this action is."""
    if isinstance(action, WithModifier):
        action = action.plain
    if isinstance(action, Media | Pointer):
        return {(action.page, action.usage)}
    if isinstance(action, OnceModifiers):
        action = Press(0, action.modifiers)
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
    return {key: action for key, action in cells.items() if key in keyboard.place_of_key}


def check_key(desk: Desk, key: str, action: Action) -> None:
    if isinstance(action, TapHold):
        check_tap_and_hold(desk, key, action)
    elif isinstance(action, FirstSecond):
        check_first_and_second(desk, key, action)
    elif isinstance(action, OnceLayer | OnceModifiers):
        check_once(desk, key, action)
    elif isinstance(action, InTurn):
        check_in_turn(desk, key, action)
    elif not isinstance(action, LatchLayer | ChangeBase):
        check_plain(desk, key, action)


def check_plain(desk: Desk, key: str, action: Action) -> None:
    down = usages_of(action)
    assert desk.press(key) == ([down] if down else []), f"pressing {key}"
    assert desk.release(key) == ([set()] if down else []), f"releasing {key}"


def check_in_turn(desk: Desk, key: str, action: InTurn) -> None:
    told = [*desk.press(key), *desk.wait(takes_ms(desk, action))]
    assert told == told_by(action), f"what {key} types"
    assert desk.release(key) == [], f"releasing {key}"


def check_tap_and_hold(desk: Desk, key: str, action: TapHold) -> None:
    held = usages_of(action.hold)
    desk.wait(APART_MS)
    assert desk.press(key) == [], f"{key} is decided too early"
    told = [*desk.release(key), *desk.wait(2 + takes_ms(desk, action.tap))]
    assert told == told_by(action.tap), f"tapping {key}"
    assert desk.begin(key, action) == ([held] if held else []), f"holding {key}"
    assert desk.release(key) == ([set()] if held else []), f"letting go of {key}"


def check_first_and_second(desk: Desk, key: str, action: FirstSecond) -> None:
    """Tapped so often in a row it does what stands for that number; the last one is at once."""
    for number, part in enumerate(action.parts, 1):
        told: list[Down] = []
        for _ in range(number):
            assert told == [], f"{key} is decided too early"
            told = [*desk.press(key), *desk.release(key)]
        told += desk.wait(2 + takes_ms(desk, part))
        if number < len(action.parts):
            assert told == [], f"{key} is decided too early"
            told += desk.wait(action.within_ms)
        assert told == told_by(part), f"{key}, pressed {number} times"


def check_once(desk: Desk, key: str, action: Action) -> None:
    """Pressed three times it is on for the next key, on until pressed again, and off."""
    down = usages_of(action)
    assert desk.press(key) == ([down] if down else [])
    for _ in range(2):
        assert desk.release(key) == []
        assert desk.press(key) == []
    assert desk.release(key) == ([set()] if down else [])


def leading_to(
    cells: dict[str, Action], kind: type[HoldLayer] | type[LatchLayer]
) -> dict[str, str]:
    """Return the key that leads to each layer in one step, be it by holding it for long enough."""
    held = {key: one.hold if isinstance(one, TapHold) else one for key, one in cells.items()}
    return {action.layer: key for key, action in held.items() if isinstance(action, kind)}


def worth_a_look(keyboard: Keyboard, layer: str) -> Iterator[tuple[str, Action]]:
    """Yield keys while a layer is on; what takes long only if it is of that layer."""
    own = {cell.key.text for one in keyboard.layers if one.name.text == layer for cell in one.cells}
    for key, action in cells_with(keyboard, layer).items():
        if key in own or not isinstance(action, TapHold | InTurn | FirstSecond):
            yield key, action


def test_every_key_of_the_base_layer(desk: tuple[Desk, Keyboard]) -> None:
    at, keyboard = desk
    cells = cells_with(keyboard)
    assert set(cells) == {key.name.text for key in keyboard.keys}
    for key, action in cells.items():
        check_key(at, key, action)


def test_keys_of_a_set_do_what_they_do_together(desk: tuple[Desk, Keyboard]) -> None:
    at, keyboard = desk
    base = next(layer for layer in keyboard.layers if layer.name.text == "base")
    for one in base.together:
        first, *others = one.key_names
        at.chip.close_key(first)
        at.wait(2)
        for key in others:
            at.chip.close_key(key)
        told = at.wait(3 + one.within_ms)
        for key in one.key_names:
            told += at.release(key)
        assert told == told_by(one.action), f"{one.key} together"


def test_every_key_of_every_layer_that_is_held(desk: tuple[Desk, Keyboard]) -> None:
    at, keyboard = desk
    for layer, holder in leading_to(cells_with(keyboard), HoldLayer).items():
        assert at.begin(holder, cells_with(keyboard)[holder]) == []
        for key, action in worth_a_look(keyboard, layer):
            if key != holder:
                check_key(at, key, action)
        assert at.release(holder) == []


def test_every_key_of_every_layer_that_is_latched(desk: tuple[Desk, Keyboard]) -> None:
    at, keyboard = desk
    for holder, held in ways_to_latches(keyboard):
        for layer, latch in leading_to(cells_with(keyboard, *held), LatchLayer).items():
            tap_within(at, keyboard, holder, latch)
            for key, action in worth_a_look(keyboard, layer):
                check_key(at, key, action)
            tap_within(at, keyboard, holder, latch)
    check_key(at, *next(iter(press_cells(keyboard))))


def test_with_caps_lock_on_every_text_is_typed_without_it(desk: tuple[Desk, Keyboard]) -> None:
    """In boot protocol, as some of them are typed at a computer's start."""
    at, keyboard = desk
    if not keyboard.has(InTurn):
        return
    at.host.set_leds(CAPS_LOCK_LED)
    at.host.set_protocol(boot=True)
    locks: list[Down] = [{CAPS_LOCK}, set()]
    for key, action in cells_with(keyboard).items():
        if isinstance(action, InTurn):
            told = [*at.press(key), *at.wait(takes_ms(at, action) + 4 * at.pace)]
            around = locks if action.types_text else []
            assert told == [*around, *told_by(action), *around], f"what {key} types"
            assert at.release(key) == []
    at.host.set_leds(0)
    at.host.set_protocol(boot=False)


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


def tap_within(at: Desk, keyboard: Keyboard, holder: str | None, latch: str) -> None:
    if holder:
        assert at.begin(holder, cells_with(keyboard)[holder]) == []
    assert at.press(latch) == []
    assert at.release(latch) == []
    if holder:
        assert at.release(holder) == []
