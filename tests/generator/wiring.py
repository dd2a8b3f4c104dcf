"""The block `wiring`: any matrix of 1 to 32 rows and columns, each key at its own crossing."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from matrixgen.model.runs import in_runs
from matrixgen.source.limits import LIMITS
from tests.generator.words import COLOURS, names

AXES = ("row", "column")


@dataclass
class Matrix:
    """The keys on each wire, by axis."""

    wires: dict[str, list[list[str]]]

    @property
    def size(self) -> int:
        """How many wires there are."""
        return sum(map(len, self.wires.values()))


def matrix(chance: Random, keys: list[str], most: int) -> Matrix:
    """Keys at crossings, with at most so many wires."""
    count, top = len(keys), LIMITS.lines_per_axis
    fit = [
        (rows, columns)
        for rows in range(1, top + 1)
        for columns in range(1, min(top, most - rows) + 1)
        if rows * columns >= count and (rows - 1) * columns < count
    ]
    rows, columns = chance.choice(fit)
    places = [(row, column) for row in range(rows) for column in range(columns)]
    chosen = sorted(chance.sample(places, count)) if chance.random() < 0.5 else places[:count]
    at = dict(zip(keys, chosen, strict=True))
    lines = {
        axis: [[key for key, place in at.items() if place[side] == n] for n in range(size)]
        for side, (axis, size) in enumerate(zip(AXES, (rows, columns), strict=True))
    }
    return Matrix({axis: [wire for wire in wires if wire] for axis, wires in lines.items()})


def wiring(
    chance: Random, made: Matrix, order: list[str], pins: list[list[str]], *, sound: bool
) -> list[str]:
    """The statements of a wiring; `pins` has those of each controller, in the order of use.

    A sound one has its diodes toward the driven wires.
    """
    driven = chance.choice(AXES)
    toward = driven if sound else chance.choice(AXES)
    sense = AXES[1 - AXES.index(driven)]
    head = []
    if not sound and chance.random() < 0.3:
        head = [f"without diode {_keys(chance, order, order)}"]
        head.append(f"drive {driven}s, sense {sense}s")
    else:
        part = chance.choice(("1N4148", "BAT85", "BAT54", *['"my diode.json"'][sound:]))
        head.append(f"diodes {part}, band toward {toward}s")
        if chance.random() < 0.6:
            head.append(f"drive {driven}s, sense {sense}s")
        if not sound and len(order) > 1:
            some = chance.sample(order, chance.randint(1, min(3, len(order))))
            word = chance.choice(("without diode", "reversed"))
            head.append(f"{word} {_keys(chance, some, order)}")
    if chance.random() < 0.4:
        unit = chance.choice(("us", "µs", "μs"))
        head.append(f"settle {chance.choice((5, 9, 20.5) if sound else (0, 1, 1000))} {unit}")
    wires = [(axis, keys) for axis in AXES for keys in made.wires[axis]]
    called = names(chance, len(wires), "w")
    lines = []
    for number, ((axis, keys), name) in enumerate(zip(wires, called, strict=True)):
        on = [board[number] for board in pins if number < len(board)]
        pin = (
            f" on {', '.join(on)}"
            if len(on) == len(pins) and (sound or chance.random() < 0.6)
            else ""
        )
        colour = f" wire {chance.choice(COLOURS)}" if chance.random() < 0.3 else ""
        visits = keys if chance.random() < 0.7 else chance.sample(keys, len(keys))
        if not sound and chance.random() < 0.3:
            visits = []
        lines.append(f"{axis} {name}{pin}{colour} {_keys(chance, visits, order)}".rstrip())
    chance.shuffle(head)
    if chance.random() < 0.3:
        chance.shuffle(lines)
    return [*head, *lines]


def _keys(chance: Random, keys: list[str], order: list[str]) -> str:
    """Keys one by one, or in runs where there are any."""
    if chance.random() < 0.5:
        return " ".join(in_runs(keys, {key: place for place, key in enumerate(order)}))
    return " ".join(keys)
