"""A keyboard as data that is easy to change, and written as a .keys file."""

from __future__ import annotations

import copy
from dataclasses import dataclass, field
from random import Random

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
PINS = ["PB0", "PB1", "PB2", "PB3", "PB4", "PB5", "PB6", "PB7", "PC6", "PC7", "PD0", "PD1", "PD2"]
MORE_PINS = ["PD3", "PD4", "PD5", "PD6", "PD7", "PE6"]


@dataclass
class Wire:
    name: str
    axis: str
    pin: str
    visits: list[str]
    colour: str | None = None


@dataclass
class Pad:
    """Keys with their place, width and number; wires; layers from the bottom, cells as words."""

    keys: dict[str, tuple[float, float, float, int]]
    wires: list[Wire]
    layers: dict[str, dict[str, str]]
    actions: dict[str, str]
    name: str = "Pad"
    maker: str = "Me"
    usb: str = "1209:0002"
    debounce: int = 5
    drive: str = "column"
    part: str = "1N4148"
    toward: str = "column"
    bare: set[str] = field(default_factory=set)
    turned: set[str] = field(default_factory=set)
    settle: int | None = 5
    hold: list[str] = field(default_factory=list)
    allow: list[str] = field(default_factory=list)
    comment: str = "made for a test"
    controller: str = "atmega32u4"
    press: int | None = None
    once: int | None = None
    remember: bool = False
    needs: dict[str, list[str]] = field(default_factory=dict)
    holes: list[tuple[float, float]] = field(default_factory=lambda: [(-5, 0), (-5, 10), (-5, 20)])
    areas: list[tuple[float, ...]] = field(default_factory=lambda: [(-9, 0, 1, 2), (-9, 9, 1, 2)])

    def copy(self) -> Pad:
        return copy.deepcopy(self)

    def wire(self, name: str) -> Wire:
        return next(wire for wire in self.wires if wire.name == name)

    def of_axis(self, axis: str) -> list[Wire]:
        return [wire for wire in self.wires if wire.axis == axis]

    @property
    def text(self) -> str:
        """The file. Each key has a cluster of its own, so that each can go anywhere alone."""
        return "\n".join([*self._head(), *self._plate(), *self._wiring(), *self._layers()]) + "\n"

    def _head(self) -> list[str]:
        lines = [f"# {self.comment}", f'keyboard "{self.name}"', f"  controller {self.controller}"]
        press = f", press {self.press} ms" if self.press else ""
        lines += [f"  debounce {self.debounce} ms{press}"]
        lines += [f'  maker "{self.maker}"', f"  usb {self.usb}"]
        lines += [f"  once lasts {self.once} ms"] if self.once else []
        lines += ["  remember base"] if self.remember else []
        lines += [f"  boot-loader hold {' '.join(self.hold)}"] if self.hold else []
        return [*lines, *(f"  allow {slug}" for slug in self.allow)]

    def _plate(self) -> list[str]:
        lines = ["plate"]
        for key, (x, y, width, number) in self.keys.items():
            lines += [f"  cluster at-{number} at {x:g}, {y:g}", f"    line {key}:{width:g}"]
        lines += [f"  hole at {x:g}, {y:g}" for x, y in self.holes]
        return lines + [f"  keep clear {', '.join(f'{n:g}' for n in one)}" for one in self.areas]

    def _wiring(self) -> list[str]:
        sense = "rows" if self.drive == "column" else "columns"
        lines = ["wiring", f"  drive {self.drive}s, sense {sense}"]
        lines.append(f"  diodes {self.part}, band toward {self.toward}s")
        lines += [f"  without diode {' '.join(sorted(self.bare))}"] if self.bare else []
        lines += [f"  reversed {' '.join(sorted(self.turned))}"] if self.turned else []
        lines += [f"  settle {self.settle} us"] if self.settle is not None else []
        for wire in self.wires:
            colour = f" wire {wire.colour}" if wire.colour else ""
            lines.append(f"  {wire.axis} {wire.name} on {wire.pin}{colour} {' '.join(wire.visits)}")
        return lines

    def _layers(self) -> list[str]:
        lines = ["actions", *(f"  {name} = {said}" for name, said in self.actions.items())]
        for layer, cells in self.layers.items():
            needed = " and ".join(self.needs.get(layer, ()))
            while_on = f" while {needed} are on" if needed else ""
            lines += [f"layer {layer}{while_on}"]
            lines += [f"  {key} = {said}" for key, said in cells.items()]
        return lines


def random_pad(chance: Random) -> Pad:
    """A block of keys with two or three layers that other keys hold."""
    rows, columns = chance.randint(2, 3), chance.randint(3, 5)
    names = chance.sample(LETTERS, rows * columns)
    keys = {
        name: (float(place % columns) * 1.5, float(place // columns), 1.0, place)
        for place, name in enumerate(names)
    }
    pins = chance.sample(PINS, rows + columns)
    wires = [
        Wire(f"r{n}", "row", pins[n], names[n * columns : (n + 1) * columns]) for n in range(rows)
    ]
    wires += [Wire(f"c{n}", "column", pins[rows + n], names[n::columns]) for n in range(columns)]
    for wire in wires:
        wire.colour = chance.choice([None, "red", "blue"])
    upper = ["nav", "num", "fun"][: chance.randint(2, 3)]
    base = {name: f"hold layer {layer}" for name, layer in zip(names, upper, strict=False)}
    pad = Pad(keys=keys, wires=wires, layers={"base": base}, actions={"copy": "Ctrl+C"})
    for number, layer in enumerate(upper):
        chosen = chance.sample(names[3:], min(3, len(names) - 3))
        pad.layers[layer] = {key: f"F{number * 3 + n + 1}" for n, key in enumerate(chosen)}
    pad.layers["nav"][names[3]] = "copy"
    _leave_out(pad, names[chance.randrange(4, len(names))])
    return pad


def _leave_out(pad: Pad, key: str) -> None:
    """Leave a crossing empty, so that there is room for a key."""
    del pad.keys[key]
    for wire in pad.wires:
        wire.visits = [one for one in wire.visits if one != key]
    for cells in pad.layers.values():
        cells.pop(key, None)
