"""Edits of a pad, each with the changes that a comparison has to tell of, and of no others.

An edit touches some things, by name, and is not made where another one has touched one of them:
what two edits of one thing come to is for neither of them to say.
"""

from __future__ import annotations

import contextlib
import re
from collections.abc import Callable, Iterable, Iterator
from random import Random

from tests.compare.pads import LETTERS, MORE_PINS, PINS, Pad, Wire, random_pad

Told = tuple[str, str]
"""A change: its slug, and what it is about."""


class Touched(Exception):
    """An edit cannot be made here: what it would touch is not there, or was touched before."""


class Script:
    """A pad that is edited, what must be told of it, and what was touched."""

    def __init__(self, pad: Pad, chance: Random) -> None:
        self.pad, self.chance = pad.copy(), chance
        self.told: list[Told] = []
        self._touched: set[str] = set()

    def touch(self, *things: str) -> None:
        if self._touched & set(things):
            raise Touched
        self._touched |= set(things)

    def key(self, *also: str) -> str:
        """A key that nothing has touched, which now is."""
        free = [key for key in self.pad.keys if f"key {key}" not in self._touched]
        if not free:
            raise Touched
        key = self.chance.choice(free)
        self.touch(f"key {key}", *also)
        return key

    def wire(self) -> Wire:
        free = [wire for wire in self.pad.wires if f"wire {wire.name}" not in self._touched]
        if not free:
            raise Touched
        wire = self.chance.choice(free)
        self.touch(f"wire {wire.name}")
        return wire

    def tell(self, slug: str, about: str) -> None:
        self.told.append((slug, about))


def rename_key(script: Script) -> None:
    pad, old = script.pad, script.key()
    new = script.chance.choice([one for one in LETTERS if one not in pad.keys])
    script.touch(f"key {new}", "order of keys")
    if old in pad.hold:
        raise Touched
    pad.keys = {new if key == old else key: place for key, place in pad.keys.items()}
    for wire in pad.wires:
        wire.visits = [new if key == old else key for key in wire.visits]
    for layer, cells in pad.layers.items():
        pad.layers[layer] = {new if key == old else key: said for key, said in cells.items()}
    pad.bare = {new if key == old else key for key in pad.bare}
    pad.turned = {new if key == old else key for key in pad.turned}
    script.tell("key-renamed", new)
    if new not in pad.layers["base"]:
        script.tell("key-on-layer", f"base {new}")


def move_key(script: Script) -> None:
    key = script.key()
    x, y, width, number = script.pad.keys[key]
    away = script.chance.choice([10.0, 20.0, 30.5]) + len(script.told)
    script.pad.keys[key] = (x + away, y, width, number)
    script.tell("keys-moved", key)


def resize_key(script: Script) -> None:
    key = script.key()
    x, y, _, number = script.pad.keys[key]
    script.pad.keys[key] = (x - 0.125, y, 1.25, number)  # its middle stays where it was
    script.tell("key-resized", key)


def add_key(script: Script) -> None:
    script.touch("order of keys")
    pad = script.pad
    new = script.chance.choice([one for one in LETTERS if one not in pad.keys])
    row, column = (script.chance.choice(pad.of_axis(axis)) for axis in ("row", "column"))
    if set(row.visits) & set(column.visits):
        raise Touched
    script.touch(f"key {new}", f"wire {row.name}", f"wire {column.name}")
    place = (script.chance.uniform(40, 90) // 1, 7.0 + len(script.told))
    pad.keys[new] = (*place, 1.0, 50 + len(script.told))
    row.visits.append(new)
    column.visits.append(new)
    script.tell("key-added", new)


def remove_key(script: Script) -> None:
    pad, key = script.pad, script.key()
    wires = [wire for wire in pad.wires if key in wire.visits]
    said = [cells.get(key, "") for cells in pad.layers.values()]
    script.touch(*(f"wire {wire.name}" for wire in wires), "order of keys")
    if key in pad.hold or any(word.startswith("hold") or word == "copy" for word in said):
        raise Touched
    if any(len(wire.visits) < 2 for wire in wires):
        raise Touched
    del pad.keys[key]
    for wire in wires:
        wire.visits.remove(key)
    for cells in pad.layers.values():
        cells.pop(key, None)
    pad.bare.discard(key)
    pad.turned.discard(key)
    if any(not cells for layer, cells in pad.layers.items() if layer != "base"):
        raise Touched
    script.tell("key-removed", key)


def take_hole(script: Script) -> tuple[float, float]:
    """Take out a hole that nothing has touched."""
    hole = script.chance.choice(script.pad.holes)
    script.touch(f"hole {hole}")
    script.pad.holes.remove(hole)
    return hole


def put_hole(script: Script, hole: tuple[float, float]) -> None:
    script.touch(f"hole {hole}")
    script.pad.holes.insert(script.chance.randrange(3), hole)


def add_hole(script: Script) -> None:
    put_hole(script, (-5, 30))
    script.tell("hole-added", "at -5, 30")


def remove_hole(script: Script) -> None:
    x, y = take_hole(script)
    script.tell("hole-removed", f"at {x}, {y}")


def move_hole(script: Script) -> None:
    x, y = take_hole(script)
    put_hole(script, (x + script.chance.choice([-0.75, 0.25]), y + 0.5))
    script.tell("hole-moved", f"at {x}, {y}")


def add_area(script: Script) -> None:
    script.touch("new area")
    script.pad.areas.insert(script.chance.randrange(2), (-9, 20, 2, 2))
    script.tell("area-added", "of 2 x 2 at -9, 20")


def remove_area(script: Script) -> None:
    script.touch("area")
    script.pad.areas.remove((-9, 9, 1, 2))
    script.tell("area-removed", "of 1 x 2 at -9, 9")


def change_area(script: Script) -> None:
    script.touch("area")
    script.pad.areas.remove((-9, 0, 1, 2))
    script.pad.areas.append(script.chance.choice([(-8.5, 0, 1, 2), (-9, 0, 1.5, 2), (-9, 0, 1, 3)]))
    script.tell("area-changed", "of 1 x 2 at -9, 0")


def rewire_key(script: Script) -> None:
    """Move a key to another wire of an axis, where it meets no other key."""
    pad, axis = script.pad, script.chance.choice(["row", "column"])
    key = script.key()
    old = next(wire for wire in pad.of_axis(axis) if key in wire.visits)
    crossing = next(wire for wire in pad.wires if wire.axis != axis and key in wire.visits)
    free = [w for w in pad.of_axis(axis) if not set(w.visits) & set(crossing.visits)]
    if not free or len(old.visits) < 3:
        raise Touched
    new = script.chance.choice(free)
    script.touch(f"wire {old.name}", f"wire {new.name}", f"wire {crossing.name}")
    old.visits.remove(key)
    new.visits.append(key)
    script.tell("key-rewired", key)


def reorder_visits(script: Script) -> None:
    wire = script.wire()
    if len(wire.visits) < 2:
        raise Touched
    wire.visits = wire.visits[1:] + wire.visits[:1]
    script.tell("visits-ordered", wire.name)


def recolour(script: Script) -> None:
    wire = script.wire()
    wire.colour = script.chance.choice(
        [c for c in (None, "green", "red", "blue") if c != wire.colour]
    )
    script.tell("wire-coloured", wire.name)


def move_pin(script: Script) -> None:
    wire = script.wire()
    taken = {other.pin for other in script.pad.wires}
    wire.pin = script.chance.choice([pin for pin in (*PINS, *MORE_PINS) if pin not in taken])
    script.tell("pin-moved", wire.name)


def rename_wire(script: Script) -> None:
    wire = script.wire()
    wire.name = f"{wire.name}-{script.chance.randrange(100)}"
    script.touch(f"wire {wire.name}")
    script.tell("wire-renamed", wire.name)


def reorder_wires(script: Script) -> None:
    script.touch("order of wires")
    pad = script.pad
    axis = script.chance.choice(["row", "column"])
    places = [place for place, wire in enumerate(pad.wires) if wire.axis == axis]
    one, other = places[0], places[-1]
    pad.wires[one], pad.wires[other] = pad.wires[other], pad.wires[one]
    script.tell("wires-ordered", axis)


def turn_diode(script: Script) -> None:
    key = script.key()
    if key in script.pad.bare:
        raise Touched
    script.pad.turned ^= {key}
    script.tell("diodes-changed", key)


def bridge_diode(script: Script) -> None:
    key = script.key()
    if key in script.pad.turned:
        raise Touched
    script.pad.bare ^= {key}
    script.tell("diodes-changed", key)


def other_diodes(script: Script) -> None:
    script.touch("diodes")
    script.pad.part = "BAT85"
    script.tell("diode-part", "BAT85")


def edit_cell(script: Script) -> None:
    layer = script.chance.choice(list(script.pad.layers))
    key = script.key(f"layer {layer}")
    cells = script.pad.layers[layer]
    if cells.get(key, "").startswith("hold") or cells.get(key) == "copy":
        raise Touched
    cells[key] = script.chance.choice(["Insert", "Shift+Delete", "nothing", "PageUp"])
    script.tell("key-on-layer", f"{layer} {key}")


def clear_cell(script: Script) -> None:
    layer = script.chance.choice([name for name in script.pad.layers if name != "base"])
    cells = script.pad.layers[layer]
    key = script.key(f"layer {layer}")
    if key not in cells or len(cells) < 2 or cells[key] == "copy":
        raise Touched
    del cells[key]
    script.tell("key-on-layer", f"{layer} {key}")


def rename_layer(script: Script) -> None:
    pad = script.pad
    old = script.chance.choice([name for name in pad.layers if name != "base"])
    new = f"{old}-{script.chance.randrange(100)}"
    script.touch(f"layer {old}", f"layer {new}", "order of layers")
    pad.layers = {new if name == old else name: cells for name, cells in pad.layers.items()}
    for cells in pad.layers.values():
        for key, said in cells.items():
            cells[key] = re.sub(rf"\blayer {old}(?![\w-])", f"layer {new}", said)
    pad.needs = {
        new if layer == old else layer: [new if name == old else name for name in names]
        for layer, names in pad.needs.items()
    }
    script.tell("layer-renamed", new)


def exchange_layer_names(script: Script) -> None:
    pad = script.pad
    names = [name for name in pad.layers if name != "base"]
    script.touch("order of layers", *(f"layer {name}" for name in names))
    one, other = script.chance.sample(names, 2)
    new = {one: other, other: one}
    pad.layers = {
        new.get(name, name): {
            key: re.sub(r"\blayer ([\w-]+)", lambda at: f"layer {new.get(at[1], at[1])}", said)
            for key, said in cells.items()
        }
        for name, cells in pad.layers.items()
    }
    pad.needs = {
        new.get(layer, layer): [new.get(name, name) for name in names]
        for layer, names in pad.needs.items()
    }
    script.tell("layer-names-exchanged", "")


def reorder_layers(script: Script) -> None:
    script.touch("order of layers")
    base, *others = script.pad.layers.items()
    script.pad.layers = dict([base, *others[1:], others[0]])
    script.tell("layers-ordered", "")


def add_layer(script: Script) -> None:
    script.touch("order of layers", "layer extra")
    key = script.key("layer base")
    if key in script.pad.layers["base"]:
        raise Touched
    script.pad.layers["extra"] = {key: "Home"}
    script.pad.layers["base"][key] = "hold layer extra"
    script.tell("layer-added", "extra")
    script.tell("key-on-layer", f"base {key}")


def edit_action(script: Script) -> None:
    script.touch("action copy")
    script.pad.actions["copy"] = "Ctrl+Insert"
    script.tell("action-edited", "copy")


def rename_action(script: Script) -> None:
    script.touch("action copy")
    pad = script.pad
    named = pad.actions.items()
    pad.actions = {"duplicate" if name == "copy" else name: said for name, said in named}
    for cells in pad.layers.values():
        cells.update({key: "duplicate" for key, said in cells.items() if said == "copy"})
    script.tell("action-renamed", "duplicate")


def add_action(script: Script) -> None:
    script.touch("action paste")
    script.pad.actions["paste"] = "Ctrl+V"
    script.tell("action-added", "paste")


def settings(name: str, value: object, slug: str) -> Callable[[Script], None]:
    def edit(script: Script) -> None:
        script.touch(name)
        setattr(script.pad, name, value)
        script.tell(slug, "")

    edit.__name__ = f"change {name}"
    return edit


def hold_boot_loader(script: Script) -> None:
    script.touch("hold", "order of keys")
    script.pad.hold = [script.key(), script.key()]
    script.tell("boot-loader-changed", "")


def give_two_meanings(script: Script) -> None:
    layer = script.chance.choice(list(script.pad.layers))
    key = script.key(f"layer {layer}")
    cells = script.pad.layers[layer]
    if cells.get(key, "").startswith("hold") or cells.get(key) == "copy":
        raise Touched
    held = script.chance.choice(["Ctrl", f"layer {list(script.pad.layers)[1]}", "once Shift"])
    cells[key] = f"tap Insert, hold {held}, {script.chance.choice(['by press', 'after 150 ms'])}"
    script.tell("key-on-layer", f"{layer} {key}")


def need_layers(script: Script) -> None:
    """Let the last layer need two others."""
    _, *others = script.pad.layers
    if len(others) < 3:
        raise Touched
    script.touch("order of layers", *(f"layer {name}" for name in others))
    script.pad.needs[others[2]] = others[:2]
    script.tell("layer-needs-changed", "")


EDITS: tuple[Callable[[Script], None], ...] = (
    rename_key,
    move_key,
    resize_key,
    add_key,
    remove_key,
    move_hole,
    change_area,
    rewire_key,
    reorder_visits,
    recolour,
    move_pin,
    rename_wire,
    reorder_wires,
    turn_diode,
    bridge_diode,
    other_diodes,
    edit_cell,
    clear_cell,
    rename_layer,
    exchange_layer_names,
    reorder_layers,
    add_layer,
    edit_action,
    rename_action,
    add_action,
    hold_boot_loader,
    settings("name", "Pad 2", "name-changed"),
    settings("maker", "You", "maker-changed"),
    settings("usb", "1209:0003", "usb-ids-changed"),
    settings("debounce", 8, "debounce-time-changed"),
    settings("settle", 9, "settling-time-changed"),
    settings("allow", ["ghost-possible"], "allowances"),
    settings("comment", "made for another test", "comments"),
)

UNBUILT: tuple[Callable[[Script], None], ...] = (
    give_two_meanings,
    need_layers,
    add_hole,
    remove_hole,
    add_area,
    remove_area,
    settings("press", 2, "time-of-a-press-changed"),
    settings("once", 900, "time-that-once-lasts-changed"),
    settings("remember", True, "remember-base-changed"),
)
"""Edits whose images are compared elsewhere: some change no image where no key asks for it.

No hole and no area is in an image: one edit of each shows that.
"""


def scripted(pad: Pad, edits: int, chance: Random) -> Script:
    """A pad after some edits that touch different things, and what must be told of them."""
    script = Script(pad, chance)
    while edits:
        pad_before, told, touched = script.pad.copy(), list(script.told), set(script._touched)
        try:
            script.chance.choice((*EDITS, *UNBUILT))(script)
        except Touched:
            script.pad, script.told, script._touched = pad_before, told, touched
        edits -= 1
    return script


def edited_alone(
    edit: Callable[[Script], None], seeds: Iterable[int]
) -> Iterator[tuple[Pad, Script]]:
    """Yield pads on which one edit can be made, and what it makes of them."""
    for seed in seeds:
        chance = Random(seed)
        pad = random_pad(chance)
        script = Script(pad, chance)
        with contextlib.suppress(Touched):
            edit(script)
            yield pad, script
