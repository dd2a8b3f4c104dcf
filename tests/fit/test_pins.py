"""Pins for the lines of a matrix: of the right kind, the freest first, in the edges' order."""

from __future__ import annotations

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.fit.pins import choose_pins, dearest_cost, line_pins, most_lines
from matrixgen.record import changed


@pytest.mark.parametrize("name", builtin_names())
@pytest.mark.parametrize("drive", ["row", "column"])
def test_as_many_pins_as_there_are_lines_and_none_twice(name, drive):
    profile = builtin_profile(name)
    most = most_lines(profile)
    for rows, columns in ((2, 3), (most // 2, most - most // 2), (1, most - 1)):
        chosen = choose_pins(profile, rows, columns, drive)
        assert chosen is not None
        assert (len(chosen.rows), len(chosen.columns)) == (rows, columns)
        pins = (*chosen.rows, *chosen.columns)
        assert len({pin.name for pin in pins}) == rows + columns
        driven, sensed = pins[:rows], pins[rows:]
        if drive == "column":
            driven, sensed = sensed, driven
        assert all(pin.is_usable and pin.output for pin in driven)
        assert all(pin.is_usable and pin.pull_up for pin in sensed)
    assert choose_pins(profile, 1, most, drive) is None


@pytest.mark.parametrize("name", builtin_names())
def test_no_second_duty_is_given_up_while_a_pin_is_free(name):
    profile = builtin_profile(name)
    free = len(profile.free_pins)
    chosen = choose_pins(profile, 2, free - 2, "column")
    assert {pin.use for pin in (*chosen.rows, *chosen.columns)} == {"free"}


@pytest.mark.parametrize("name", builtin_names())
def test_rows_and_then_columns_leave_the_board_in_the_order_of_its_edges(name):
    profile = builtin_profile(name)
    place = {pin.name: number for number, pin in enumerate(profile.pins_round_the_board)}
    chosen = choose_pins(profile, 3, 4, "column")
    walked = [place[pin.name] for pin in (*chosen.rows, *chosen.columns)]
    assert walked == sorted(walked)


def test_pins_that_only_sense_or_only_drive_are_put_to_such_lines():
    profile = builtin_profile("at90usb162")
    taken = {"PB0": {"output": False}, "PB1": {"pull_up": False}}
    pins = tuple(changed(pin, **taken.get(pin.name, {})) for pin in profile.pins)
    odd = changed(profile, pins=pins)
    most = most_lines(odd)
    chosen = choose_pins(odd, 1, most - 1, "column")  # the one sensed line
    assert [pin.name for pin in chosen.rows] == ["PB0"]
    chosen = choose_pins(odd, most - 1, 1, "column")  # the one driven line
    assert [pin.name for pin in chosen.columns] == ["PB1"]


def test_pins_that_are_not_to_be_taken_are_not():
    profile = builtin_profile("stick-32u4")
    chosen = choose_pins(profile, 2, 2, "column", without={"PB4", "PB5"})
    assert {"PB4", "PB5"}.isdisjoint(pin.name for pin in (*chosen.rows, *chosen.columns))


@pytest.mark.parametrize("name", builtin_names())
def test_no_pin_is_taken_while_a_cheaper_one_is_left(name):
    profile = builtin_profile(name)
    costs = sorted(pin.cost for pin in line_pins(profile))
    for lines in range(2, len(costs) + 1):
        chosen = choose_pins(profile, lines // 2, lines - lines // 2, "column")
        taken = sorted(pin.cost for pin in (*chosen.rows, *chosen.columns))
        assert taken == costs[:lines]
        assert dearest_cost(profile, lines // 2, lines - lines // 2, "column") == taken[-1]


@pytest.mark.parametrize("name", builtin_names())
def test_of_pins_as_cheap_those_are_taken_that_leave_fewest_holes_at_the_edges(name):
    profile = builtin_profile(name)
    walked = line_pins(profile)
    cheap = [number for number, pin in enumerate(walked) if pin.cost == 0]
    for lines in range(2, len(cheap) + 1):
        chosen = choose_pins(profile, 1, lines - 1, "column")
        places = [walked.index(pin) for pin in (*chosen.rows, *chosen.columns)]
        windows = zip(cheap, cheap[lines - 1 :], strict=False)
        assert places[-1] - places[0] == min(last - first for first, last in windows)


def test_seven_lines_of_a_stick_are_seven_neighbours():
    chosen = choose_pins(builtin_profile("stick-32u4"), 3, 4, "column")
    pins = (*chosen.rows, *chosen.columns)
    assert [pin.label for pin in pins] == ["2", "3", "4", "5", "6", "7", "8"]


def test_a_pin_that_the_board_holds_low_takes_no_line():
    profile = builtin_profile("board-f401")
    assert "PB2" not in {pin.name for pin in line_pins(profile)}
    assert choose_pins(profile, 1, most_lines(profile), "column") is None
