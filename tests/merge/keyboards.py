"""Keyboards as plain lists and dictionaries, which can be changed at random, and their text."""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from matrixgen.model.runs import in_runs

CELLS = ["F1", "F2", "Ctrl+C", "Shift+7", "nothing", "Tab", "Up", "7"]

OFFSETS = ["", "in 0.25 ", "in -0.5 ", "down 0.5 ", "in -1 down -0.25 ", "down -1.5 in 2 "]


@dataclass
class Wire:
    axis: str
    name: str
    pin: str
    colour: str | None
    keys: list[str]


@dataclass
class Layer:
    name: str
    is_picture: bool
    cells: dict[str, str]
    needs: str = ""


@dataclass
class Keyboard:
    settings: dict[str, str]
    lines: list[list[str]]
    sizes: dict[str, str] = field(default_factory=dict)
    wires: list[Wire] = field(default_factory=list)
    actions: dict[str, str] = field(default_factory=dict)
    layers: list[Layer] = field(default_factory=list)
    comments: dict[str, str] = field(default_factory=dict)
    new_names: dict[str, str] = field(default_factory=dict)
    holes: dict[int, str] = field(default_factory=dict)
    areas: dict[int, tuple[str, str]] = field(default_factory=dict)
    offsets: list[str] = field(default_factory=list)

    @property
    def keys(self) -> list[str]:
        return [key for line in self.lines for key in line]

    def text(self) -> str:
        order = {key: place for place, key in enumerate(self.keys)}
        parts = ["# a keyboard made at random", 'keyboard "Pad"', "  controller atmega32u4"]
        parts += [f"  {word} {value}" for word, value in self.settings.items()]
        parts += ["", "plate"]
        parts += [
            f"  line {offset}{self._keys(line)}{self._note(line[0])}"
            for offset, line in zip(self.offsets, self.lines, strict=True)
        ]
        parts[-1:-1] = [
            f"  hole at {place}{self._note(f'hole {n}')}" for n, place in self.holes.items()
        ]
        parts += [f"  keep clear {place}, {size}" for place, size in self.areas.values()]
        parts += [
            "",
            "wiring",
            "  drive columns, sense rows",
            "  diodes 1N4148, band toward columns",
        ]
        for wire in self.wires:
            colour = f" wire {wire.colour}" if wire.colour else ""
            keys = " ".join(in_runs(wire.keys, order))
            parts.append(
                f"  {wire.axis} {wire.name} on {wire.pin}{colour}  {keys}{self._note(wire.name)}"
            )
        parts += ["", "actions", *(f"  {name} = {said}" for name, said in self.actions.items())]
        for layer in self.layers:
            parts += [
                "",
                f"layer {layer.name}{layer.needs}{self._note('layer ' + layer.name)}",
                *self._layer(layer),
            ]
        return "\n".join(parts) + "\n"

    def _keys(self, line: list[str]) -> str:
        return " ".join(key + self.sizes.get(key, "") for key in line)

    def _note(self, about: str) -> str:
        return f"  # {self.comments[about]}" if about in self.comments else ""

    def _layer(self, layer: Layer) -> list[str]:
        if layer.is_picture:
            rows = [[layer.cells.get(key, "~") for key in line] for line in self.lines]
            return [f"  {' '.join(row)}" for row in rows]
        lines = [[key for key in line if key in layer.cells] for line in self.lines]
        return [f"  {'  '.join(f'{k} = {layer.cells[k]}' for k in line)}" for line in lines if line]


def random_keyboard(chance: random.Random) -> Keyboard:
    """Three or four lines, a row wire for each, and column wires through them."""
    widths = [chance.randint(3, 6) for _ in range(chance.randint(3, 4))]
    names = iter(f"K{n}" for n in range(100))
    made = Keyboard({"debounce": "5 ms"}, [[next(names) for _ in range(width)] for width in widths])
    pins = iter([f"P{port}{bit}" for port in "BD" for bit in range(8)] + [f"PF{n}" for n in (0, 1)])
    for number, line in enumerate(made.lines):
        colour = chance.choice([None, "red"])
        made.wires.append(Wire("row", f"r{number}", next(pins), colour, list(line)))
    for number in range(max(widths)):
        keys = [line[number] for line in made.lines if number < len(line)]
        made.wires.append(Wire("column", f"c{number}", next(pins), None, keys))
    made.actions = {"copy": "Ctrl+C", "more": "hold layer one", "also": "latch layer two"}
    made.actions |= {"both": "tap copy, hold layer two, by press", "next": "once layer two"}
    words = ["A", "B", "C", "more", "also", "copy", "both", "next"]
    base = {key: chance.choice(words) for key in made.keys}
    made.layers.append(Layer("base", chance.random() < 0.5, base))
    for name in ("one", "two"):
        is_picture = chance.random() < 0.5
        cells = {key: chance.choice(CELLS) for key in made.keys if chance.random() < 0.6}
        made.layers.append(Layer(name, is_picture, cells or {made.keys[0]: "F1"}))
    needs = " while one and two are on"
    made.holes = {n: f"{n}, {chance.choice([8, 8.5])}" for n in range(chance.randint(1, 4))}
    made.areas = {n: (f"{n}, 10", "0.5, 2") for n in range(chance.randint(1, 2))}
    made.layers.append(Layer("three", chance.random() < 0.5, {made.keys[0]: "F2"}, needs))
    made.offsets = [chance.choice(OFFSETS) for _ in made.lines]
    made.comments = {"r0": "the first wire", made.lines[0][0]: "top", "layer one": "held"}
    made.comments["hole 0"] = "over the jack"
    return made
