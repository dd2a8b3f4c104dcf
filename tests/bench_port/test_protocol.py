"""Lines of a bench: whole, torn, foreign and wrong ones."""

import pytest

from matrixgen.bench.serial.press import Presses
from matrixgen.bench.serial.protocol import Listener
from matrixgen.failure import Failure

HELLO = b"bench 1 ATmega32U4\r\npins PD0 PD1\r\npins PB4\r\nPD0 > PB4 closed\r\nready\r\n"


def heard(*pieces):
    listener = Listener()
    for piece in pieces:
        listener.feed(piece)
    return listener


@pytest.mark.parametrize("size", [1, 2, 7, 1000])
def test_lines_are_read_in_pieces_of_any_size(size):
    listener = heard(*(HELLO[at : at + size] for at in range(0, len(HELLO), size)))
    assert (listener.chip, listener.pins) == ("ATmega32U4", ["PD0", "PD1", "PB4"])
    assert listener.closed == {("PD0", "PB4")}
    assert listener.is_ready and not listener.is_torn


def test_changes_are_followed():
    listener = heard(HELLO, b"PD1 > PB4 closed\r\nPD0 > PB4 open\r\n")
    assert listener.closed == {("PD1", "PB4")}


def test_half_a_line_before_the_first_is_passed_over():
    listener = heard(b"4 closed\r\nready\r\n", HELLO)
    assert listener.is_ready and not listener.is_torn


@pytest.mark.parametrize(
    "line", [b"PD0 > PD7 closed", b"PD0 PB4 closed", b"PD1 > PB4 cloPD0 > PB4 open", b"\xff\xfe"]
)
def test_a_wrong_line_asks_for_everything_again(line):
    listener = heard(HELLO, line + b"\r\n")
    assert listener.is_torn
    listener.feed(HELLO)
    assert not listener.is_torn


@pytest.mark.parametrize("line", [b"PD0 > PB4 closed", b"PD1 > PB4 open"])
def test_a_change_that_tells_of_one_that_never_came_is_counted_and_asks_again(line):
    listener = heard(HELLO, line + b"\r\n")
    assert (listener.is_torn, listener.broken) == (True, 1)


def test_broken_lines_are_counted_from_the_first_whole_one_on():
    listener = heard(b"4 closed\r\n", HELLO, b"PD0 > P\r\n", b"\xff\r\n")
    assert listener.broken == 2


def test_what_is_no_bench_is_kept_to_be_shown_and_no_more_of_it_than_that():
    listener = heard(b"Hello, world\r\n", b"x" * 5000, b"\r\n" * 50)
    assert listener.foreign[0] == "Hello, world"
    assert len(listener.foreign) <= 3
    assert not listener.is_ready


def test_another_version_is_refused():
    with pytest.raises(Failure, match="version `3`, but matrixgen knows 1 and 2"):
        heard(b"bench 3 RP2040\r\n")


def test_a_pin_that_is_held_high_closes_nothing():
    listener = heard(HELLO.replace(b"bench 1", b"bench 2"), b"PD0 high\r\n")
    assert listener.high == ["PD0"]
    assert listener.closed == set() and not listener.is_torn
    listener.feed(HELLO)
    assert listener.high == []


@pytest.mark.parametrize("line", [b"PD7 high", b"high", b"PD0  high", b"PD0 high now"])
def test_a_wrong_line_about_the_supply_is_torn(line):
    listener = heard(HELLO, line + b"\r\n")
    assert listener.is_torn and listener.high == []


FACTS = (
    b"fact signature 1E9587",
    b"fact fuses FFD8CB",
    b"fact clock 1024036 1024",
    b"rises PD0 1",
    b"rises PB4 never",
)


def test_what_a_board_answers_is_kept_until_it_begins_again():
    listener = heard(HELLO.replace(b"ready\r\n", b""), *(line + b"\r\n" for line in FACTS))
    assert listener.facts == {
        "signature": ("1E9587",),
        "fuses": ("FFD8CB",),
        "clock": ("1024036", "1024"),
    }
    assert listener.rises == {"PD0": 1, "PB4": None}
    assert not listener.is_torn
    listener.feed(HELLO)
    assert (listener.facts, listener.rises) == ({}, {})


@pytest.mark.parametrize(
    "line",
    [
        *(b"fact", b"fact lock", b"fact lock  EC", b"fact lock E\xff", b"fact x 1 2 3 4 5"),
        *(b"fact clock " + b"9" * 17, b"rises PD7 1", b"rises PD0", b"rises PD0 1000"),
        b"rises PD0 often",
    ],
)
def test_a_wrong_answer_is_torn(line):
    listener = heard(HELLO, line + b"\r\n")
    assert listener.is_torn
    assert (listener.facts, listener.rises) == ({}, {})


OPEN, PAIR, OTHER = frozenset(), frozenset([("PD0", "PB4")]), frozenset([("PD1", "PB4")])


def told(*states, rest=OPEN):
    """What is told of states, each at its time in milliseconds."""
    presses = Presses(rest)
    return [press for now, state in states if (press := presses.see(now, state)) is not None]


def test_a_press_counts_once_it_is_steady_and_once_only():
    bouncing = [(5 * n, PAIR if n % 2 else OPEN) for n in range(6)]
    assert told(*bouncing, (30, PAIR)) == []
    assert told(*bouncing, (30, PAIR), (80, PAIR), (200, PAIR), (210, OPEN), (260, OPEN)) == [PAIR]


def test_a_press_that_ends_before_it_is_steady_counts_when_it_has_ended():
    assert told((0, PAIR), (20, OPEN)) == []
    assert told((0, PAIR), (0, OPEN), (70, OPEN)) == [PAIR]


def test_a_key_that_follows_at_once_counts_and_one_that_joins_does_not():
    assert told((0, PAIR), (50, PAIR), (60, OPEN), (60, OTHER), (120, OTHER)) == [PAIR, OTHER]
    assert told((0, PAIR), (50, PAIR), (60, PAIR | OTHER), (120, PAIR | OTHER)) == [PAIR]


def test_a_key_that_joins_one_that_is_held_down_counts_where_two_are_asked_for():
    presses = Presses(OPEN)
    presses.joins = True
    states = [(0, PAIR), (50, PAIR), (60, PAIR | OTHER), (120, PAIR | OTHER), (130, OTHER)]
    seen = [presses.see(now, state) for now, state in states]
    assert seen == [None, PAIR, None, PAIR | OTHER, None]


def test_a_contact_that_chatters_as_it_opens_is_not_pressed_again():
    states = [(0, PAIR), (50, PAIR), (60, OPEN), (62, PAIR), (110, PAIR), (120, OPEN), (200, OPEN)]
    assert told(*states) == [PAIR]


def test_what_is_closed_at_rest_is_no_press():
    assert told((100, OTHER), (200, OTHER | PAIR), (300, OTHER | PAIR), rest=OTHER) == [PAIR]
