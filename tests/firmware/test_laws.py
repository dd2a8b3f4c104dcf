"""What holds for any fingers at a keyboard of every behaviour.

The engine's reports are the model's at each step (`meetings.play` compares them), so that the laws
are watched on the model, where events can be seen.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

import pytest

from matrixgen.behaviour import Event, Machine
from matrixgen.model import Action, FirstSecond, TapHold
from tests.amounts import IS_LONG, amount
from tests.firmware.meetings import AT_LEAST, EDGES, MET, RUNS, play_all
from tests.firmware.pads import timed_pad
from tests.firmware.scripts import only_types

SEEDS = amount("MATRIXGEN_WATCHED", suite=3, long=20)
EDGES_OF_A_RUN = 600


@dataclass
class Watch:
    """Every press and release of a machine as it is acted on, with the moment."""

    machine: Machine
    done: list[tuple[Event, int]] = field(default_factory=list)
    meanings: list[tuple[Event, Action]] = field(default_factory=list)
    ended: dict[Event, Action] = field(default_factory=dict)

    def __post_init__(self) -> None:
        press, release = self.machine._press, self.machine._release

        def pressed(event: Event, action: Action) -> None:
            self.meanings.append((event, action))
            self.done.append((event, self.machine.now_ms))
            press(event, action)

        def released(event: Event) -> None:
            self.ended[event] = self.machine.held[event.key]
            self.done.append((event, self.machine.now_ms))
            release(event)

        self.machine._press = pressed  # type: ignore[method-assign]
        self.machine._release = released  # type: ignore[method-assign]


@pytest.fixture(scope="module", params=range(SEEDS))
def watch(request: pytest.FixtureRequest) -> Watch:
    """A run with a host that takes each report at once."""
    machine = Machine(timed_pad())
    watch = Watch(machine)
    chance = Random(request.param)
    for _ in range(EDGES_OF_A_RUN):
        down = sorted(machine.closed)
        lets_go = down and chance.random() < 0.25 + 0.12 * len(down)
        machine.closed ^= {chance.choice(down if lets_go else machine.scanned)}
        wait(machine, chance.choice((0, 1, 1, 2, 3, 6, 6, 20, 60, 120, 220)))
    machine.closed.clear()
    wait(machine, 1000)
    return watch


def wait(machine: Machine, milliseconds: int) -> None:
    """Three scans a millisecond; after one that tells nothing, the next ones do neither."""
    for _ in range(milliseconds):
        for _ in range(3):
            told = [machine.step() or None, machine.take(), machine.take_media()]
            if told == [None, None, None]:
                break
        machine.now_ms += 1


def test_edges_leave_in_the_order_of_their_first_readings(watch: Watch) -> None:
    """Except the release of a key that only typed, which waits for no press that is undecided."""
    plain = releases_of_what_only_typed(watch)
    moments = [event.at_ms for event, _ in watch.done if event not in plain]
    assert moments == sorted(moments)
    assert len(moments) > 200
    overtaking = [event.at_ms for event, _ in watch.done]
    assert overtaking != sorted(overtaking), "nothing ever went first"


def releases_of_what_only_typed(watch: Watch) -> set[Event]:
    """Return the releases of keys that sent a key without modifiers, or a media key."""
    return {event for event, action in watch.ended.items() if only_types(action)}


def test_every_press_has_one_release_and_nothing_is_done_twice(watch: Watch) -> None:
    down: set[str] = set()
    for event, _ in watch.done:
        assert event.down == (event.key not in down)
        down ^= {event.key}
    assert not down


def test_no_press_takes_longer_than_the_file_says(watch: Watch) -> None:
    """Debounce time of an earlier release, or the time of a key with several meanings before it."""
    keyboard = watch.machine.keyboard
    actions = [cell.action for layer in keyboard.layers for cell in layer.cells]
    longest = max(action.after_ms for action in actions if isinstance(action, TapHold))
    longest = max(longest, *(one.within_ms for one in actions if isinstance(one, FirstSecond)))
    bound = longest + keyboard.debounce_ms.value + 1
    late = [now - event.at_ms for event, now in watch.done if event.down]
    assert max(late) <= bound


def test_a_press_means_one_of_the_things_that_the_file_gives_its_key(watch: Watch) -> None:
    for event, action in watch.meanings:
        cells = (cells.get(event.key) for cells in watch.machine.stack.cells.values())
        given = [part for cell in cells if cell for part in (cell, *cell.parts)]
        assert action in given and not isinstance(action, TapHold)


def test_every_behaviour_meets_every_other_and_engine_and_model_agree(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """`python -m tests.firmware.meetings` prints the table."""
    meetings = play_all(tmp_path_factory.mktemp("meetings"))
    few = {
        (first.__name__, then.__name__): count
        for first in MET
        for then in MET
        if (count := meetings.counts[first.__name__, then.__name__]) < AT_LEAST
    }
    assert not few, meetings.table()
    played = EDGES * RUNS
    assert played >= (200_000 if IS_LONG else 45_000)
