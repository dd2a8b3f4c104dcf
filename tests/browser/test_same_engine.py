"""The engine in a page gives the reports that the host build of the firmware gives, and the model.

1,000 random sequences of fingers for each example, played by the page's own script.
"""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from matrixgen.behaviour import Event, Machine
from matrixgen.jobs.press import press_data_of
from matrixgen.model import Keyboard
from tests.amounts import amount
from tests.browser.pages import Live
from tests.examples.fingers import Sequence, sequence
from tests.examples.paced import paced
from tests.examples.shipped import NAMES, example
from tests.examples.test_random_fingers import times_of
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.firmware.pads import timed_pad, together_pad

SEQUENCES = amount("MATRIXGEN_SEQUENCES", suite=40, long=5000)
LOOKED_INTO = amount("MATRIXGEN_LOOKED_INTO", suite=40, long=800)
FINGERS = 4

PLAY = """async ([text, looks]) => {
    const data = JSON.parse(document.getElementById("press-data").textContent);
    const crossings = new Map(data.keys.map((key) => [key.name, key.crossing]));
    const engine = await pressIt.Engine.load(data.engine);
    const layers = () => engine.layers().map((on) => data.layers[on]).join(" ");
    const waiting = () => engine.waiting().map((key) => data.keys[key].name);
    const inside = () => [layers(), ...waiting()].join(": ");
    const hex = (bytes) => Array.from(bytes, (one) => one.toString(16).padStart(2, "0")).join("");
    const play = ([changes, ends]) => {
        const told = [];
        let next = 0;
        for (let ms = 0; ms < ends; ms++) {
            for (; next < changes.length && changes[next][0] === ms; next++) {
                engine.move(crossings.get(changes[next][1]), changes[next][2]);
            }
            const { report, media } = engine.tick();
            told.push(...[report, media].filter((one) => one).map(hex));
            if (looks) {
                told.push(inside());
            }
        }
        return told;
    };
    const told = JSON.parse(text).map(play);
    return [told, engine.c.web_faults()];
}"""


def fingers_on(keyboard: Any, chance: random.Random, count: int) -> list[Sequence]:
    """Return sequences for a keyboard: with pauses where its keys know time."""
    keys, debounce = [key.name.text for key in keyboard.keys], int(keyboard.debounce_ms.value)
    if times_of(keyboard):
        return [paced(chance, keys, FINGERS) for _ in range(count)]
    return [sequence(chance, keys, debounce) for _ in range(count)]


def played_in_page(
    live: Live, sequences: list[Sequence], *, looks: bool = False
) -> list[list[str]]:
    """Return what each sequence tells, in order; with `looks`, also what is on at each step."""
    moves = [
        ([(one.at_ms, one.key, one.closed) for one in each.changes], each.ends_ms)
        for each in sequences
    ]
    told, faults = live.page.evaluate(PLAY, [json.dumps(moves), looks])
    assert faults == 0
    return told


def played_on_host(engine: HostKeyboard, fingers: Sequence) -> list[str]:
    """Return the same of the host build, which takes its reports as the page does."""
    told = []
    changes = list(fingers.changes)
    for moment in range(fingers.ends_ms):
        while changes and changes[0].at_ms == moment:
            engine.close(changes[0].key, changes[0].closed)
            changes.pop(0)
        engine.step()
        told += [one.hex() for one in (engine.take(), engine.take_media()) if one is not None]
        engine.advance(1)
    return told


def played_by_model(machine: Machine, fingers: Sequence) -> list[str]:
    """Return the same of the model, with the layers that are on and the presses that wait."""
    told = []
    changes = list(fingers.changes)
    oldest: Event | None = None
    for moment in range(fingers.ends_ms):
        while changes and changes[0].at_ms == moment:
            machine.closed ^= {changes.pop(0).key}
        machine.step()
        taken = [one.hex() for one in (machine.take(), machine.take_media()) if one is not None]
        known = machine.edges.known()
        goes_on = oldest if oldest in known[:1] else None
        oldest = goes_on if taken else machine.undecided()
        waiting = [event.key for event in known if event.down] if oldest else []
        told += [*taken, ": ".join([" ".join(machine.layers_on()), *waiting])]
        machine.now_ms += 1
    return told


@pytest.mark.parametrize("name", NAMES)
def test_page_and_host_build_give_the_same_reports(
    name: str, live: Callable[[dict[str, Any]], Live], tmp_path: Path
) -> None:
    keyboard = example(name).keyboard
    host = HostKeyboard(shared_library(keyboard, tmp_path), host_view(keyboard))
    sequences = fingers_on(keyboard, random.Random(name), SEQUENCES)
    opened = live(press_data_of(keyboard, f"{name}.keys"))
    told = played_in_page(opened, sequences)
    for number, (fingers, reports) in enumerate(zip(sequences, told, strict=True)):
        assert reports == played_on_host(host, fingers), f"sequence {number}: {fingers}"
    assert sum(map(len, told)) > 3 * SEQUENCES, "hardly any report was compared"


@pytest.mark.parametrize("pad", [timed_pad, partial(together_pad, in_turn=False)])
def test_layers_that_are_on_and_the_press_that_is_undecided_are_the_model_s(
    pad: Callable[[], Keyboard], live: Callable[[dict[str, Any]], Live]
) -> None:
    keyboard = pad()
    sequences = fingers_on(keyboard, random.Random("inside"), LOOKED_INTO)
    told = played_in_page(live(press_data_of(keyboard, "pad.keys")), sequences, looks=True)
    machine = Machine(keyboard)
    for number, (fingers, found) in enumerate(zip(sequences, told, strict=True)):
        assert found == played_by_model(machine, fingers), f"sequence {number}: {fingers}"
    words = {one for found in told for one in found if "base" in one}
    assert len(words) > 20, "hardly any layer was ever on"
    assert any(one.count(": ") > 1 for one in words), "nothing ever waited for a press"
