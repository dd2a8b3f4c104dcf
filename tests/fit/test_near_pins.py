"""Where the controller's place is known, wires get pins that are near where they start."""

from __future__ import annotations

from itertools import permutations
from math import dist
from pathlib import Path

import pytest

from matrixgen.fit.near_pins import nearness
from matrixgen.model.switch import UNIT_MM, centre_mm
from matrixgen.routing.board import board_on_plate
from tests.texts import examined, keyboard_in

PLATE = """\
keyboard "Pad"
  controller rp2040-40pin

plate
  line Q W E ~4 R T Y
  line A S D ~4 F G H
  line Z X C ~4 V B N
"""
PLACES = ("4.9, 0", "5, 2.9 turned 180", "3.5, 1.5 turned 270", "5, -4", "12, 1 turned 90")


def leads(path: Path, place: str) -> tuple[float, list[int]]:
    """How far it is from pads to first keys if the board lies there, and the pins' costs."""
    text = path.read_text("utf-8")
    if "controller at" not in text:
        text = text.replace("  line Z", f"  controller at {place}\n  line Z")
    mounted = examined(text).mounted[0]
    board = board_on_plate(mounted.keyboard.plate, mounted.profile)
    keys = {key.name.text: key for key in mounted.keyboard.keys}
    pins = [(mounted.pin_of(line), line) for line in mounted.keyboard.wiring.lines]
    ways = [
        dist(board.pads[pin.name].at, centre_mm(keys[line.visits[0].text])) for pin, line in pins
    ]
    return sum(ways), sorted(pin.cost for pin, _ in pins)


@pytest.mark.parametrize("place", PLACES)
def test_with_a_place_the_pins_are_nearer_and_no_dearer(program, place):
    plain, placed = program.write("plain.keys", PLATE), program.write("placed.keys", PLATE)
    (program.folder / placed).write_text(PLATE + f"  controller at {place}\n", "utf-8")
    for name in (plain, placed):
        assert program("fit", "--write", name).status == 0
    far, costs = leads(program.folder / plain, place)
    near, same_costs = leads(program.folder / placed, place)
    assert same_costs == costs
    assert near < far
    assert near < 9 * 12 * UNIT_MM


@pytest.mark.parametrize("place", PLACES)
def test_of_all_ways_to_share_out_some_pins_hardly_any_is_shorter(place):
    """The pins of a few wires are shared out in every order: the one taken is nearly the best."""
    text = PLATE + f"  controller at {place}\n"
    keyboard, profile = keyboard_in(text), examined(text).mounted[0].profile
    first = ["Q", "E", "N", "A", "T"]
    near = nearness(keyboard, profile, first)
    board = board_on_plate(keyboard.plate, profile)
    centres = {key.name.text: centre_mm(key) for key in keyboard.keys}
    pins = [profile.pin(name) for name in ("GPIO0", "GPIO4", "GPIO13", "GPIO17", "GPIO22")]

    def way(order) -> float:
        return sum(
            dist(board.pads[pin.name].at, centres[key])
            for pin, key in zip(order, first, strict=True)
        )

    ways = sorted(way(order) for order in permutations(pins))
    assert way(near.matched(first, pins)) <= ways[len(ways) // 5]
