"""One closed reading is no press: sparks and neighbours' edges on wiring without a ground plane.

Calculated (25 of 60 pF between neighbours at 3.3 V dip a line to about 1.9 V), no published source.
"""

from __future__ import annotations

from random import Random

import pytest

from tests.firmware.host_build import COMPILERS
from tests.firmware.pads import square_board


@pytest.fixture(params=COMPILERS)
def board(request, started):
    return started(square_board, request.param)


def test_a_line_that_reads_low_once_is_no_press(board):
    key = next(iter(board.crossings))
    board.spark(key)
    assert not board.step()
    assert board.take() is None


@pytest.mark.parametrize("readings, pressed", [(1, False), (2, False), (3, True)])
def test_a_press_is_what_three_readings_in_a_row_say(board, readings, pressed):
    for key in board.crossings:
        board.spark(key, readings=readings)
        assert board.step() == pressed
        for _ in range(2):
            board.step()
            board.take()
            board.advance(6)


def test_readings_of_which_each_says_another_key_make_no_press(board):
    board.spark("K00", readings=1)
    board.spark("K10", before=1, readings=2)
    assert board.crossings["K00"][0] == board.crossings["K10"][0]
    assert not board.step()


@pytest.mark.parametrize("seed", range(20))
def test_sparks_at_any_reading_of_any_line_make_no_event(board, seed):
    chance, keys = Random(seed), list(board.crossings)
    for _ in range(500):
        board.spark(chance.choice(keys), chance.randrange(4))
        assert not board.step()
        board.advance(chance.randrange(3))
        assert board.take() is None


@pytest.mark.parametrize("seed", range(20))
def test_keys_that_are_held_stay_held_among_sparks(board, seed):
    chance, keys = Random(seed), list(board.crossings)
    held, *others = chance.sample(keys, 12)
    board.close(held, True)
    assert board.step()
    board.take()
    for _ in range(300):
        board.spark(chance.choice(others), chance.randrange(4))
        board.step()
        board.advance(1)
        assert board.take() is None


def test_a_press_is_told_in_the_turn_in_which_it_is_first_read(board):
    for key in board.crossings:
        board.close(key, True)
        assert board.step()
        board.take()
        board.close(key, False)
        board.step()
        board.advance(6)
        board.step()
        board.take()
    assert board.faults() == 0


@pytest.mark.parametrize("readings, pressed", [(2, False), (3, True)])
def test_lines_after_one_with_a_press_are_read_as_often(board, readings, pressed):
    board.close("K00", True)
    board.spark("K77", readings=readings)
    board.step()
    assert board.take() is not None
    board.step()
    assert (board.take() is not None) == pressed


def test_a_keyboard_that_starts_anew_reads_a_key_that_is_down_as_pressed(board):
    board.close("K00", True)
    assert board.step()
    board.c.keyboard_start()
    assert board.step()


@pytest.mark.parametrize("key", [f"K{place}{place}" for place in range(8)])
def test_a_sleeping_computer_is_woken_by_a_key_that_stays_down_over_a_nap(board, key):
    board.transport(open=False, boot=False)
    board.c.host_suspend(True)
    board.c.loop_step()
    board.close(key, True)
    board.c.loop_step()
    assert board.c.host_wakes() == 0
    board.c.loop_step()
    assert board.c.host_wakes() == 1


def test_and_not_by_what_is_over_before_that(board):
    key = next(iter(board.crossings))
    board.transport(open=False, boot=False)
    board.c.host_suspend(True)
    board.close(key, True)
    board.c.loop_step()
    board.close(key, False)
    for _ in range(5):
        board.c.loop_step()
    assert board.c.host_wakes() == 0
