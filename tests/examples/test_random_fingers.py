"""Emulated chip, host build and Python model give the same reports for the same fingers.

Random sequences of several keys, press for press. The suite plays 60 on each example, 25 on the
RP2040, whose emulator is slower, of one compiler's image; the long run 5,000 and
1,000, on the images of both. Layers stay latched from one sequence to the next, in all three.

Where keys ask how long ago something was, all changes keep clear of the times that are asked for
(`paced.py`); where keys type in turn too, fingers are drawn anew until that is so. Of reports of
the pointer only the buttons are compared, and how far each wheel turns in all, which only knobs
turn: how far the pointer moves hangs on milliseconds.
"""

from __future__ import annotations

import copy
import functools
import random
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from matrixgen.behaviour import Machine
from matrixgen.boards import Mounted
from matrixgen.emit.knob_view import with_knobs_in_order
from matrixgen.families import CompilerKind
from matrixgen.model import FirstSecond, InTurn, Keyboard, TapHold, with_parts
from tests.amounts import amount
from tests.emulators.avr.board import pin_number
from tests.emulators.usb_host import UsbHost
from tests.examples.fingers import STATE_MS, Change, Sequence, Step, sequence
from tests.examples.paced import is_clear, paced, with_steps
from tests.examples.shipped import BUILDS, TURNS_A_MS, Board, board, example
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.firmware.turning import contacts_at
from tests.layouts.computer import CAPS_LOCK_LED

SEQUENCES = {
    "avr": amount("MATRIXGEN_SEQUENCES", suite=60, long=5000),
    "rp2040": amount("MATRIXGEN_SEQUENCES", suite=25, long=1000),
}
FINGERS = {"avr": 3, "rp2040": 2}
"""How many at once where there are pauses: an emulator's time is dear."""

SCANS_A_MS = 3
MODEL_PLAYS = 4
"""Where keys type in turn the model plays each sequence several times: fewer of them are tried."""

POINTER_REPORT, POINTER_BYTES = 4, 6
"""The number of a pointer's report, and its length: no other report of that length begins so."""

WHEELS = slice(4, 6)
"""Their bytes in that report."""

TURNS_WITH_KNOBS = 5
"""How many turns of its loop an RP2040 is given each millisecond that looks at knobs.

That many it makes while nothing is down; a turn with keys that are undecided takes longer, and then
too it has to see each state of a knob.
"""

LATE_MS = 20
"""A chip may be so late with the last report of what it types in turn."""


class OnChip:
    """A chip; `pins` are those of A and B of each knob."""

    def __init__(
        self,
        chip: Board,
        has_media: bool,
        pins: Mapping[str, tuple[int, ...]] = MappingProxyType({}),
    ) -> None:
        self.chip = chip
        self.has_media = has_media
        self.pins, self.places = pins, Counter[str]()
        self.host = UsbHost(chip)
        self.host.enumerate()
        self.host.set_idle(0)
        self.host.poll_both(5)

    def computer(self, leds: int, *, boot: bool) -> None:
        self.host.set_leds(leds)
        self.host.set_protocol(boot=boot)

    def change(self, change: Change) -> None:
        (self.chip.close_key if change.closed else self.chip.open_key)(change.key)

    def turn(self, knob: str, way: int) -> None:
        self.places[knob] += way
        for contact, pin in enumerate(self.pins[knob]):
            self.chip.ground(pin, bool(contacts_at(self.places[knob]) >> contact & 1))

    def millisecond(self) -> list[bytes]:
        keyboard, media = self.host.poll_both(1) if self.has_media else (self.host.poll(1), [])
        return keyboard + media


class OnHost:
    """The host build; `knobs` are the names of its knobs, in its order."""

    def __init__(self, engine: HostKeyboard, knobs: list[str] | tuple[()] = ()) -> None:
        self.engine = engine
        self.knobs, self.places = knobs, Counter[str]()

    def computer(self, leds: int, *, boot: bool) -> None:
        self.engine.leds(leds)
        self.engine.transport(open=True, boot=boot)

    def change(self, change: Change) -> None:
        self.engine.close(change.key, change.closed)

    def turn(self, knob: str, way: int) -> None:
        self.places[knob] += way
        self.engine.turn(self.knobs.index(knob), contacts_at(self.places[knob]))

    def millisecond(self) -> list[bytes]:
        reports = []
        for _ in range(SCANS_A_MS):
            self.engine.step()
            reports += [self.engine.take(), self.engine.take_media()]
        self.engine.advance(1)
        return [report for report in reports if report is not None]


class OnPaper:
    """The model; where a scan has told nothing, the next one at the same moment does neither."""

    def __init__(self, oracle: Machine) -> None:
        self.oracle = oracle

    def computer(self, leds: int, *, boot: bool) -> None:
        self.oracle.leds, self.oracle.boot = leds, boot

    def change(self, change: Change) -> None:
        (self.oracle.closed.add if change.closed else self.oracle.closed.discard)(change.key)

    def turn(self, knob: str, way: int) -> None:
        self.oracle.knobs.turn(knob, way)

    def millisecond(self) -> list[bytes]:
        reports: list[bytes] = []
        for _ in range(SCANS_A_MS):
            self.oracle.step()
            told = [self.oracle.take(), self.oracle.take_media()]
            if told == [None, None]:
                break
            reports += [report for report in told if report is not None]
        self.oracle.now_ms += 1
        return reports

    def copied(self) -> OnPaper:
        """Return another model in the same state; what never changes is shared."""
        oracle = self.oracle
        actions = (action for cells in oracle.stack.cells.values() for action in cells.values())
        parts = (part for action in actions for part in with_parts(action))
        shared = (oracle.keyboard, oracle.stack, oracle.lines, oracle.hands, *parts)
        return OnPaper(copy.deepcopy(oracle, {id(one): one for one in shared}))

    @property
    def is_at_rest(self) -> bool:
        oracle = self.oracle
        return oracle.turn is None and not oracle.edges.waiting and oracle.knobs.are_done


def play(at: OnChip | OnHost | OnPaper, fingers: Sequence) -> list[bytes]:
    reports: list[bytes] = []
    moment = 0
    for change in sorted((*fingers.changes, *fingers.steps), key=lambda one: one.at_ms):
        for _ in range(change.at_ms - moment):
            reports += at.millisecond()
        moment = change.at_ms
        if isinstance(change, Change):
            at.change(change)
        else:
            reports += turn(at, change)
            moment += change.lasts_ms
    for _ in range(fingers.ends_ms - moment):
        reports += at.millisecond()
    return reports


def turn(at: OnChip | OnHost | OnPaper, step: Step) -> list[bytes]:
    reports: list[bytes] = []
    for _ in range(step.states):
        at.turn(step.knob, step.way)
        for _ in range(STATE_MS):
            reports += at.millisecond()
    return reports


def certain(paper: OnPaper, draw: Callable[[], Sequence]) -> Sequence:
    """Draw fingers until what they type hangs on no millisecond, and give them time to the end.

    While a key types in turn, a press of it stops that, and a chip's milliseconds fall anywhere: so
    the model plays each change now and then a millisecond later.
    """
    while True:
        fingers = draw()
        told, ends_ms = set(), 0
        for late in some_late(len(fingers.changes) + len(fingers.steps)):
            trial, lateness = paper.copied(), iter(late)
            changes = tuple(
                replace(one, at_ms=one.at_ms + next(lateness)) for one in fingers.changes
            )
            steps = tuple(replace(one, at_ms=one.at_ms + next(lateness)) for one in fingers.steps)
            moved = replace(fingers, changes=changes, steps=steps)
            reports, now_ms = play(trial, moved), fingers.ends_ms
            while not trial.is_at_rest:
                reports += trial.millisecond()
                now_ms += 1
            told.add(compared(reports))
            ends_ms = max(ends_ms, now_ms)
        if len(told) == 1:
            return replace(fingers, ends_ms=ends_ms + LATE_MS)


def compared(reports: list[bytes]) -> tuple[bytes | tuple[int, ...], ...]:
    """Return what has to be the same everywhere: reports, and how far both wheels turn in all."""
    turns = [
        [byte - 256 * (byte > 127) for byte in report[WHEELS]]
        for report in reports
        if len(report) == POINTER_BYTES and report[0] == POINTER_REPORT
    ]
    return (*without_moves(reports), tuple(map(sum, zip(*turns, (0, 0), strict=True))))


def without_moves(reports: list[bytes]) -> list[bytes]:
    """Return reports, those of a pointer only where its buttons change: none is at the start."""
    kept, buttons = [], 0
    for report in reports:
        if len(report) == POINTER_BYTES and report[0] == POINTER_REPORT:
            if report[1] != buttons:
                kept.append(report[:2])
            buttons = report[1]
        else:
            kept.append(report)
    return kept


def some_late(number: int) -> Iterator[list[bool]]:
    """Yield which of some changes are late: none, and of any two of them one and the other."""
    yield [False] * number
    for bit in range(number.bit_length()):
        for late in (False, True):
            yield [bool(place >> bit & 1) == late for place in range(number)]


def pins_of_knobs(mounted: Mounted) -> dict[str, tuple[int, ...]]:
    """Return the harness's numbers of the pins of each knob, A before B."""
    return {
        knob.name.text: tuple(pin_number(pin.name) for pin in mounted.pins_of(knob))
        for knob in mounted.keyboard.knobs
    }


def times_of(keyboard: Keyboard) -> set[int]:
    """The times that a keyboard's keys and its sets of keys ask for, in ms."""
    sets = {one.within_ms for layer in keyboard.layers for one in layer.together}
    again = {one.within_ms for one in keyboard.every_action if isinstance(one, FirstSecond)}
    held = [action for action in keyboard.every_action if isinstance(action, TapHold)]
    once = {int(keyboard.once_ms.value)} if keyboard.once_ms else set()
    return (
        once | sets | again | {one.after_ms for one in held} | {one.roll_ms for one in held} - {0}
    )


@pytest.mark.parametrize(("name", "family", "kind"), BUILDS)
def test_chip_host_build_and_model_agree_press_for_press(
    name: str, family: str, kind: CompilerKind, tmp_path: Path
) -> None:
    shipped = example(name, family)
    view = host_view(shipped.keyboard)
    knobs = shipped.keyboard.knobs
    library = shared_library(shipped.keyboard, tmp_path)
    on_host = OnHost(HostKeyboard(library, view), [knob.name.text for knob in knobs])
    on_paper = OnPaper(Machine(with_knobs_in_order(shipped.mounted).keyboard))
    chance = random.Random(f"{name} {kind}")
    debounce = int(shipped.keyboard.debounce_ms.value)
    types_in_turn = shipped.keyboard.has(InTurn)
    sequences = SEQUENCES[family] // (MODEL_PLAYS if types_in_turn else 1)
    told = 0
    times = times_of(shipped.keyboard)
    assert types_in_turn or all(map(is_clear, times)), (
        f"{name}: sequences cannot keep clear of {times}"
    )
    assert times or not knobs, f"{name}: knobs turn only in paced sequences"

    def draw(chance: random.Random) -> Sequence:
        keys = [key.name.text for key in shipped.keyboard.keys]
        if not times:
            return sequence(chance, keys, debounce)
        return with_steps(chance, paced(chance, keys, FINGERS[family]), knobs)

    with board(name, kind, family, TURNS_WITH_KNOBS if knobs else TURNS_A_MS) as chip:
        on_chip = OnChip(chip, bool(view.second_interface), pins_of_knobs(shipped.mounted))
        for number in range(sequences):
            fingers = draw(chance)
            if types_in_turn:
                leds, boot = chance.choice((0, CAPS_LOCK_LED)), chance.random() < 0.5
                for one in (on_chip, on_host, on_paper):
                    one.computer(leds, boot=boot)
                fingers = certain(on_paper, functools.partial(draw, chance))
            reports, by_host, by_model = (
                compared(play(one, fingers)) for one in (on_chip, on_host, on_paper)
            )
            assert reports == by_host, f"host build, sequence {number}: {fingers}"
            assert reports == by_model, f"model, sequence {number}: {fingers}"
            assert not on_paper.oracle.held, f"sequence {number} leaves a key down"
            told += len(reports)
    assert told > sequences, "hardly any report was compared"
