"""Changes to a keyboard made at random, each with the names of what it touches.

`shared` is what the other side must leave alone, and `own` what the same side must: a rename and
another change at the same place of one side cannot be told apart afterwards.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass

from tests.merge.keyboards import CELLS, Keyboard, Layer

SPARE_PINS = ("PC6", "PC7", "PE6", "PF4", "PF5", "PF6", "PF7", "PE2")


@dataclass
class Edit:
    says: str
    apply: Callable[[Keyboard], None]
    shared: set[tuple[str, ...]]
    own: set[tuple[str, ...]]


def around(board: Keyboard, key: str) -> set[tuple[str, ...]]:
    """The key and its neighbours in the order of the plate."""
    place = board.keys.index(key)
    return {("near", one) for one in board.keys[max(0, place - 1) : place + 2]}


def change_cell(board: Keyboard, chance: random.Random, new: str) -> Edit:
    number, key = chance.randrange(len(board.layers)), chance.choice(board.keys)
    cell = chance.choice(CELLS)

    def apply(one: Keyboard) -> None:
        one.layers[number].cells[one_name(one, key)] = cell

    return Edit(
        f"cell {number} {key}",
        apply,
        {("cell", key, str(number)), ("key", key)},
        {("layer", str(number))},
    )


def clear_cell(board: Keyboard, chance: random.Random, new: str) -> Edit:
    number = chance.randrange(1, len(board.layers))
    keys = list(board.layers[number].cells)[1:] or board.keys[:1]
    key = chance.choice(keys)

    def apply(one: Keyboard) -> None:
        one.layers[number].cells.pop(one_name(one, key), None)

    return Edit(
        f"clear {number} {key}",
        apply,
        {("cell", key, str(number)), ("key", key)},
        {("layer", str(number))},
    )


def one_name(board: Keyboard, key: str) -> str:
    """The name that a key has now: renamed keys are kept under their old names."""
    return board.new_names.get(key, key)


def change_pin(board: Keyboard, chance: random.Random, new: str) -> Edit:
    number = chance.randrange(len(board.wires))
    pin = SPARE_PINS[int(new) % len(SPARE_PINS)]

    def apply(one: Keyboard) -> None:
        one.wires[number].pin = pin

    return Edit(
        f"pin {number}", apply, {("pin", str(number)), ("spare", pin)}, {("wire", str(number))}
    )


def change_colour(board: Keyboard, chance: random.Random, new: str) -> Edit:
    number, colour = chance.randrange(len(board.wires)), chance.choice(["blue", "green", None])

    def apply(one: Keyboard) -> None:
        one.wires[number].colour = colour

    return Edit(f"colour {number}", apply, {("colour", str(number))}, set())


def change_size(board: Keyboard, chance: random.Random, new: str) -> Edit:
    key, size = chance.choice(board.keys), chance.choice([":1.5", ":2", ":1x2"])

    def apply(one: Keyboard) -> None:
        one.sizes[one_name(one, key)] = size

    return Edit(f"size {key}", apply, {("size", key), ("key", key)}, set())


def change_setting(board: Keyboard, chance: random.Random, new: str) -> Edit:
    values = [("debounce", "9 ms, press 2 ms"), ("maker", '"Me"'), ("usb", "1209:0002")]
    values += [("once", "lasts 900 ms"), ("remember", "base")]
    word, value = chance.choice(values)

    def apply(one: Keyboard) -> None:
        one.settings[word] = value

    return Edit(f"setting {word}", apply, {("setting", word)}, set())


def add_hole(board: Keyboard, chance: random.Random, new: str) -> Edit:
    def apply(one: Keyboard) -> None:
        one.holes[100 + int(new)] = f"-5, {new}"

    return Edit(f"add hole {new}", apply, set(), set())


def move_hole(board: Keyboard, chance: random.Random, new: str) -> Edit:
    number = chance.choice(list(board.holes))

    def apply(one: Keyboard) -> None:
        one.holes[number] = f"-7, {new}"

    return Edit(f"move hole {number}", apply, {("hole", str(number))}, set())


def remove_hole(board: Keyboard, chance: random.Random, new: str) -> Edit:
    number = chance.choice(list(board.holes))

    def apply(one: Keyboard) -> None:
        one.holes.pop(number)
        one.comments.pop(f"hole {number}", None)

    return Edit(f"remove hole {number}", apply, {("hole", str(number))}, set())


def change_area(board: Keyboard, chance: random.Random, new: str) -> Edit:
    """Move an area, or give it another size: two sides may do one each."""
    number, part = chance.choice(list(board.areas)), chance.randrange(2)

    def apply(one: Keyboard) -> None:
        place, size = one.areas[number]
        one.areas[number] = (f"-{new}, 12", size) if part == 0 else (place, f"1, 1.{new}")

    return Edit(f"area {number} {part}", apply, {("area", str(number), str(part))}, set())


def change_comment(board: Keyboard, chance: random.Random, new: str) -> Edit:
    about = chance.choice(["r0", board.lines[0][0], "layer one", "r1"])

    def apply(one: Keyboard) -> None:
        one.comments[about] = f"note {new}"

    return Edit(
        f"comment {about}",
        apply,
        {("comment", about), ("key", about), ("first", "line")},
        {("wire", about[1:]), ("layer", "1")},
    )


def add_action(board: Keyboard, chance: random.Random, new: str) -> Edit:
    def apply(one: Keyboard) -> None:
        one.actions[f"act{new}"] = "Alt+F4"

    return Edit(f"action act{new}", apply, set(), set())


def change_action(board: Keyboard, chance: random.Random, new: str) -> Edit:
    def apply(one: Keyboard) -> None:
        one.actions[one_name(one, "copy")] = "Ctrl+Insert"

    return Edit("action copy", apply, {("action", "copy")}, {("action", "copy")})


def rename_action(board: Keyboard, chance: random.Random, new: str) -> Edit:
    def apply(one: Keyboard) -> None:
        one.actions = {f"dup{new}" if k == "copy" else k: v for k, v in one.actions.items()}
        one.actions["both"] = one.actions["both"].replace("tap copy", f"tap dup{new}")
        for layer in one.layers:
            layer.cells = {k: f"dup{new}" if v == "copy" else v for k, v in layer.cells.items()}
        one.new_names["copy"] = f"dup{new}"

    return Edit("rename copy", apply, {("action name", "copy")}, {("action", "copy")})


def add_layer(board: Keyboard, chance: random.Random, new: str) -> Edit:
    cells = {key: chance.choice(CELLS) for key in board.keys[:: chance.randint(1, 3)]}
    is_picture = chance.random() < 0.5

    def apply(one: Keyboard) -> None:
        now = {
            one_name(one, key): cell
            for key, cell in cells.items()
            if one_name(one, key) in one.keys
        }
        one.layers.append(Layer(f"new{new}", is_picture, now))

    return Edit(f"layer new{new}", apply, {("key", key) for key in cells}, set())


def rename_layer(board: Keyboard, chance: random.Random, new: str) -> Edit:
    def apply(one: Keyboard) -> None:
        one.layers[2].name = f"lay{new}"
        one.actions = {k: v.replace("layer two", f"layer lay{new}") for k, v in one.actions.items()}
        one.layers[3].needs = one.layers[3].needs.replace("two", f"lay{new}")

    return Edit("rename layer two", apply, {("layer name", "two")}, {("layer", "2")})


def rename_wire(board: Keyboard, chance: random.Random, new: str) -> Edit:
    number = chance.randrange(1, len(board.wires))

    def apply(one: Keyboard) -> None:
        one.wires[number].name = f"w{new}"

    return Edit(
        f"rename wire {number}",
        apply,
        {("wire name", str(number)), ("comment", "r1")},
        {("wire", str(number)), ("comment", "r1")},
    )


def rename_key(board: Keyboard, chance: random.Random, new: str) -> Edit:
    key, name = chance.choice(board.keys), f"N{new}"

    def apply(one: Keyboard) -> None:
        one.lines = [[name if k == key else k for k in line] for line in one.lines]
        one.sizes = {name if k == key else k: v for k, v in one.sizes.items()}
        one.comments = {name if k == key else k: v for k, v in one.comments.items()}
        for wire in one.wires:
            wire.keys = [name if k == key else k for k in wire.keys]
        for layer in one.layers:
            layer.cells = {name if k == key else k: v for k, v in layer.cells.items()}
        one.new_names[key] = name

    return Edit(
        f"rename {key} {name}", apply, {("name", key), *around(board, key)}, around(board, key)
    )


def add_key(board: Keyboard, chance: random.Random, new: str) -> Edit:
    beside, name = chance.choice(board.keys), f"A{new}"
    column = chance.randrange(len(board.lines), len(board.wires))

    def apply(one: Keyboard) -> None:
        here = one_name(one, beside)
        for keys in [*one.lines, *(wire.keys for wire in one.wires if wire.axis == "row")]:
            if here in keys:
                keys.insert(keys.index(here) + 1, name)
        one.wires[column].keys.append(name)
        one.layers[0].cells[name] = "Z"

    return Edit(f"add {name} after {beside}", apply, around(board, beside), around(board, beside))


def remove_key(board: Keyboard, chance: random.Random, new: str) -> Edit:
    line = chance.choice([line for line in board.lines if len(line) > 2])
    key = chance.choice(line[1:])

    def apply(one: Keyboard) -> None:
        one.lines = [[k for k in line if k != key] for line in one.lines]
        one.sizes.pop(key, None)
        for wire in one.wires:
            wire.keys = [k for k in wire.keys if k != key]
        for layer in one.layers:
            layer.cells.pop(key, None)

    return Edit(
        f"remove {key}",
        apply,
        {("key", key), *around(board, key)},
        {("key", key), *around(board, key)},
    )


KINDS = [
    change_cell, change_cell, change_cell, clear_cell, change_pin, change_colour, change_size,
    change_setting, change_comment, add_action, change_action, rename_action, add_layer,
    rename_layer, rename_wire, rename_key, add_key, add_key, remove_key, add_hole, move_hole,
    remove_hole, change_area, change_area,
]  # fmt: skip


def two_sides(
    board: Keyboard, chance: random.Random, most: int = 4
) -> tuple[list[Edit], list[Edit]]:
    """Changes for two sides that touch different things."""
    sides: tuple[list[Edit], list[Edit]] = ([], [])
    for number in range(2 * chance.randint(1, most)):
        mine, other = sides[number % 2], sides[1 - number % 2]
        edit = chance.choice(KINDS)(board, chance, str(number))
        taken = set().union(*(one.shared for one in (*mine, *other)))
        own = set().union(*(one.own | one.shared for one in mine))
        if not edit.shared & taken and not edit.own & own:
            mine.append(edit)
    return sides
