"""What happens in a rehearsal: to the millisecond, with every kind of key, and to the end."""

import random
from collections import defaultdict

import pytest

from matrixgen.behaviour import Machine
from matrixgen.cli.rehearse_text import lines
from matrixgen.model import HoldLayer, Press, TapHold
from matrixgen.rehearse.happening import Reported
from matrixgen.rehearse.plan import Planner
from matrixgen.rehearse.play import play
from matrixgen.rehearse.rehearsal import Rehearsal
from matrixgen.rehearse.report_words import keyboard_report, media_report
from matrixgen.rehearse.script import read_script
from tests.amounts import amount
from tests.firmware.build_model import keyboard as built
from tests.firmware.pads import loader_pad, small_pad, timed_pad
from tests.texts import keyboard_in

PLAYED = amount("MATRIXGEN_PLAYED", suite=8, long=200)
"""Scripts made at random that are played on each pad."""


def drafted(text):
    return keyboard_in(text)


def told(keyboard, script):
    steps, found = read_script("steps", script, keyboard)
    assert found == []
    return [" ".join(line.split()) for line in lines(list(play(keyboard, steps)))]


PLAIN = drafted("plate\n  line A B Shift\n")


def test_a_press_counts_at_once_and_a_release_after_the_debounce_time():
    assert told(PLAIN, "A") == [
        "0 ms + A A",
        "0 ms report: A down",
        "30 ms - A",
        "36 ms report: nothing down",
    ]


def test_the_step_after_a_tap_comes_once_its_release_counts():
    assert "37 ms + B B" in told(PLAIN, "A B")
    assert "46 ms + B B" in told(PLAIN, "A wait 10 B")


def test_steps_are_a_millisecond_apart_and_happen_in_their_order():
    assert told(PLAIN, "+Shift +A")[:4] == [
        "0 ms + Shift Shift",
        "0 ms report: Shift down",
        "1 ms + A A",
        "1 ms report: Shift+A down",
    ]
    assert told(PLAIN, "+A wait 1 +B")[2] == "1 ms + B B"


def test_what_is_still_down_at_the_end_is_said():
    assert told(PLAIN, "+B wait 40")[-1] == "40 ms still down: B"
    assert told(PLAIN, "") == []


def test_a_key_that_moves_again_without_a_wait_waits_until_the_move_counts():
    assert told(PLAIN, "+A wait 20 -A +A")[2:] == [
        "20 ms - A",
        "26 ms report: nothing down",
        "27 ms + A A",
        "27 ms report: A down",
        "27 ms still down: A",
    ]


def test_chatter_makes_no_report():
    reports = [line for line in told(PLAIN, "+A wait 9 -A wait 5 +A wait 9 -A") if "report" in line]
    assert reports == ["0 ms report: A down", "29 ms report: nothing down"]


def test_a_hold_is_decided_by_time():
    assert told(timed_pad(), "+A wait 201 J")[:6] == [
        "0 ms + A",
        "3 ms A undecided: tap A, hold layer symbols",
        "200 ms A decided: hold layer symbols",
        "200 ms layers: symbols, base",
        "201 ms + J",
        "204 ms J 2",
    ]


def test_a_press_that_waits_for_another_is_said_to_and_both_follow_in_order():
    found = told(timed_pad(), "+A wait 20 +L wait 20 -L wait 30 -A")
    assert "20 ms + L" in found
    decided = found.index("46 ms A decided: hold layer symbols")
    assert found[decided + 1] == "46 ms L once layer numbers"


def test_a_tap_is_decided_by_the_release():
    found = told(timed_pad(), "A")
    assert "36 ms A decided: tap A" in found
    assert found[-1].endswith("report: nothing down")


def test_what_is_undecided_at_the_end_stays_so():
    assert told(timed_pad(), "+A wait 50")[-1] == "50 ms still down: A; still undecided: A"


def small_tap(press_ms=None, **how):
    base = {"A": TapHold(Press(4), HoldLayer("more"), **how), "B": Press(5)}
    return built([["A", "B"]], {"base": base, "more": {"B": Press(6)}}, press_ms=press_ms)


def test_a_press_behind_an_undecided_one_is_told():
    assert told(small_tap(), "+A +B wait 9") == [
        "0 ms + A undecided: tap A, hold layer more",
        "1 ms + B waits until A is decided",
        "10 ms still down: A, B; still undecided: A",
    ]


def test_a_press_that_decides_another_one_comes_after_it():
    assert told(small_tap(decided_by="press"), "+A +B")[1:5] == [
        "1 ms + B",
        "1 ms A decided: hold layer more",
        "1 ms B C",
        "1 ms layers: more, base",
    ]


def test_a_tap_is_down_for_as_long_as_a_press_must_last_to_count():
    assert told(small_tap(press_ms=50), "B") == [
        "0 ms + B",
        "51 ms - B",
        "51 ms B B",
        "51 ms report: B down",
        "57 ms report: nothing down",
    ]


def test_once_keys_are_said_to_wait_and_to_be_used():
    found = told(timed_pad(), "OnceShift J OnceShift wait 800")
    assert sum("for the next key: Shift" in line for line in found) == 2
    assert sum("nothing waits for the next key" in line for line in found) == 2
    found = told(timed_pad(), "OnceShift OnceShift")
    assert any("until pressed again: Shift" in line for line in found)


def test_a_changed_base_is_among_the_layers():
    assert any("layers: other, base" in line for line in told(timed_pad(), "Base"))


def test_the_boot_loader_ends_it():
    found = told(loader_pad(), "+More B A")
    assert found[-1] == (
        "1 ms the keyboard leaves USB and becomes its boot loader; "
        "what is left of the script is not played"
    )
    assert told(loader_pad(), "+A +B +Z wait 1100")[-1].startswith("1002 ms the keyboard leaves")


def test_keys_without_wires_are_scanned_last_in_the_order_of_the_plate():
    draft = drafted("plate\n  line A B C D\n\nwiring\n  row r0 A to D\n  column c0 D\n")
    assert Machine(draft).scanned == ["D", "A", "B", "C"]


@pytest.mark.few(8)
@pytest.mark.parametrize("pad", [small_pad, timed_pad])
@pytest.mark.parametrize("seed", range(PLAYED))
def test_the_reports_are_the_model_s_whatever_is_played(pad, seed):
    keyboard, chance = pad(), random.Random(seed)
    names = [key.name.text for key in keyboard.keys]
    down, words = set(), []
    for _ in range(60):
        key = chance.choice(names)
        words.append(f"{'-' if key in down else '+'}{key} wait {chance.choice([0, 3, 30, 210])}")
        down ^= {key}
    steps, found = read_script("steps", "\n".join(words), keyboard)
    assert found == []
    told = list(play(keyboard, steps))
    assert [one.at_ms for one in told] == sorted(one.at_ms for one in told)
    reports = [(one.at_ms, one.report.words) for one in told if isinstance(one, Reported)]
    assert reports == by_the_model(keyboard, steps, told[-1].at_ms)
    assert told == list(play(keyboard, steps))


def by_the_model(keyboard, steps, last_ms):
    """The reports of the bare model when the same switches move at the same times."""
    machine, reports = Machine(keyboard), []
    moves = defaultdict(set)
    for move in Planner(keyboard).moves(steps):
        moves[move.at_ms].add(move.key)
    for now_ms in range(last_ms + 1):
        machine.closed ^= moves[now_ms]
        machine.now_ms = now_ms
        machine.step()
        taken = machine.take()
        if taken is not None:
            reports.append((now_ms, keyboard_report(taken).words))
        if (media := machine.take_media()) is not None:
            reports.append((now_ms, media_report(media, machine.media).words))
    return reports


def test_no_time_but_the_script_s_passes_unless_something_is_due():
    rehearsal = Rehearsal(PLAIN)
    assert rehearsal.tick() == []
    assert rehearsal.is_settled


@pytest.mark.parametrize("script", ["A B A +A -A +A +B -A -B", "+Shift A B -Shift +A wait 3 +B -A"])
def test_no_two_switches_move_in_the_same_millisecond(script):
    steps, _ = read_script("steps", script, PLAIN)
    times = [move.at_ms for move in Planner(PLAIN).moves(steps)]
    assert times == sorted(set(times))


@pytest.mark.parametrize("lock", ["CapsLock", "NumLock"])
def test_a_lock_that_the_computer_tells_of_is_the_one_that_it_types_with(lock):
    pad = drafted(
        'keyboard "Pad"\n  computer us\n\nplate\n  line A B\n\n'
        'layer base\n  A = type "Ab"\n  B = Keypad1\n'
    )
    found = told(pad, f"light {lock}\nA\nwait 100\nlight {lock}\nB\nwait 100\n")
    assert found[-1].endswith('text: "Ab1"')
