"""Keyboards with wires that have to go round something: generated, and read as a user's file is.

Some of their keys are long, and have stabilisers.
"""

from __future__ import annotations

from random import Random

from matrixgen.model import Keyboard
from tests.texts import examined, keyboard_in

ROWS, COLUMNS = 4, 5


def random_keyboard(chance: Random) -> Keyboard:
    """Return a plate with a turned cluster, wires in any order, holes and an area kept clear."""
    text = "\n".join([*_plate(chance), *_wiring(chance)])
    assert not examined(text + "\n").errors
    return keyboard_in(text + "\n")


def _plate(chance: Random) -> list[str]:
    lines = ["plate"]
    for row in range(ROWS):
        gap = f"~{chance.choice((0.25, 0.5, 1, 2))} "
        keys = [f"K{row}{column}" for column in range(COLUMNS)]
        keys[chance.randrange(COLUMNS)] += chance.choice(("", ":2"))
        keys.insert(chance.randrange(1, COLUMNS), gap)
        lines.append(f"  line in {chance.choice((0, 0.25, 0.5))} {' '.join(keys)}")
    lines.append(f"  cluster turned at 2, {ROWS + 2.4} turned {chance.choice((-25, -10, 12, 20))}")
    keys = [f"K{ROWS}{column}" for column in range(COLUMNS)]
    keys[chance.randrange(COLUMNS)] += chance.choice(("", ":1x2"))
    lines.append(f"    line {' '.join(keys)}")
    for _ in range(2):
        lines.append(f"  hole at {chance.uniform(-0.5, 8):.2f}, -0.4")
        lines.append(f"  hole at -0.45, {chance.uniform(0, 5):.2f}")
    lines.append(f"  keep clear 8.6, {chance.uniform(-1, 4):.2f}, 1.5, 2")
    return lines


def _wiring(chance: Random) -> list[str]:
    """Wires of rows and columns, each visiting its keys in plate order or in any order."""
    lines = ["wiring", "  diodes 1N4148, band toward columns"]
    for row in range(ROWS + 1):
        lines.append(f"  row r{row} {_visits([f'K{row}{c}' for c in range(COLUMNS)], chance)}")
    for column in range(COLUMNS):
        keys = [f"K{r}{column}" for r in range(ROWS + 1)]
        lines.append(f"  column c{column} {_visits(keys, chance)}")
    return lines


def _visits(keys: list[str], chance: Random) -> str:
    if chance.random() < 0.6:
        chance.shuffle(keys)
    return " ".join(keys)
