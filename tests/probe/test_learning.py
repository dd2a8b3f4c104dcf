"""What `learn` makes of presses and typed words, without a terminal."""

import random
from itertools import count

import pytest

from matrixgen.bench.dialogues.learning import Learning
from matrixgen.bench.faults.board import board_of
from matrixgen.jobs.examine import examine_text, folder_of
from matrixgen.jobs.learn import TURN, report_of
from matrixgen.jobs.learned_text import ControllerInFile
from tests.amounts import amount
from tests.generator.files import draft
from tests.probe.boards import small_board, small_text
from tests.probe.test_learn import presses_of

KEYS = "ABCDE"
DRAWN = amount("MATRIXGEN_LEARNED_DRAFTS", suite=4, long=300)
PRESSES = presses_of(small_board("with diodes"))


@pytest.fixture
def learning():
    begun = Learning(KEYS)
    list(begun.begins())
    return begun


def say(lines):
    return "\n".join(lines)


def press(learning, *keys):
    return say(line for key in keys for line in learning.pressed(PRESSES[key]))


def test_a_second_press_of_a_key_is_asked_about_and_another_one_taken(learning):
    said = press(learning, "A", "A")
    assert "reads the same as `A`: pressed again? Let go, then press `B` alone" in said
    assert learning.asked == "B"
    press(learning, "B")
    assert learning.presses["B"] == PRESSES["B"]


def test_a_key_that_is_really_on_another_s_pins_is_taken_the_second_time(learning):
    assert "is on the same two pins as `A`" in press(learning, "A", "A", "A")
    assert learning.asked == "C"


def test_two_keys_that_are_held_are_seen_as_two(learning):
    press(learning, "A")
    both = PRESSES["A"] | PRESSES["B"]
    assert "connects 3 pins at once: two keys held (`A`)?" in say(learning.pressed(both))
    assert learning.asked == "B"
    assert "two wires touch there" in say(learning.pressed(both))


def test_back_moves_and_again_takes_back(learning):
    press(learning, "A", "B")
    assert "press `B`" in say(learning.typed(":back"))
    assert "press `A`" in say(learning.typed(":back"))
    assert set(learning.presses) == {"A", "B"}
    assert "press `C`" in press(learning, "A")
    assert "press `A`" in say(learning.typed(":again"))
    assert "press `B`" in say(learning.typed(":again"))
    assert set(learning.presses) == {"A"}


def test_again_before_any_press_says_so(learning):
    assert "nothing was pressed yet" in say(learning.typed("again"))
    assert learning.asked == "A"


@pytest.mark.parametrize("word", ["skip", "back", "again", "stop"])
def test_a_key_that_is_called_like_a_command_is_a_key(word):
    learning = Learning([word, "A"])
    press(learning, "B")
    assert f"press `{word}`" in say(learning.typed(word))
    list(learning.typed(f":{word}"))
    assert learning.is_over == (word == "stop")


def test_what_is_neither_is_said(learning):
    assert "the file has no key `Q`" in say(learning.typed("Q"))
    assert learning.asked == "A"


@pytest.mark.parametrize("seed", range(40))
def test_answers_that_are_taken_up_go_on_as_if_nothing_had_been(seed):
    """Random answers, left at a random one: the end is the same."""
    chance = random.Random(seed)
    whole, first = Learning(KEYS), Learning(KEYS)
    answers = [chance.choice(["", ":skip", *KEYS]) for _ in range(8)]
    left_at = chance.randrange(8)

    def answer(dialogue, one):
        list(dialogue.pressed(PRESSES[one]) if one in PRESSES else dialogue.typed(one))

    for one in answers[:left_at]:
        answer(whole, one)
        answer(first, one)
    second = Learning(KEYS)
    second.take_up(first.answers)
    assert second.answers == whole.answers
    assert second.is_over == (not set(KEYS) - set(second.presses) - set(first.answers.skipped))


def report(text, presses, path="small.keys", place=0, skipped=()):
    examined = examine_text(path, text, folder_of(path))
    at = ControllerInFile(examined.design, examined.mounted[place].profile, place)
    learning = Learning([key.name.text for key in examined.design.keyboard.keys])
    learning.presses = {key: press for key, press in presses.items() if key not in skipped}
    return report_of(at, learning)


def test_a_skipped_key_stays_as_the_file_has_it():
    text = small_text("some of each")
    found = report(text, presses_of(small_board("some of each")), skipped="B")
    assert (found.missing, found.text) == (("B",), text.replace("  reversed C\n", ""))


def test_a_skipped_key_of_a_file_without_a_wiring_stays_open():
    text = small_text("with diodes").partition("\nwiring")[0] + "\n"
    written = examine_text("small.keys", report(text, PRESSES, skipped="AD").text, folder_of(""))
    visits = {w.text for line in written.design.keyboard.wiring.lines for w in line.visits}
    assert visits == {*"BCE"}
    assert {found.slug for found in written.errors} == {"key-on-no-row"}


@pytest.mark.parametrize("pressed", ["AB", "ABC", "DE", "ABDE"])
def test_a_few_keys_side_by_side_are_on_a_row(pressed):
    text = small_text("with diodes").partition("\nwiring")[0] + "\n"
    skipped = set(KEYS) - set(pressed)
    written = examine_text("small.keys", report(text, PRESSES, skipped=skipped).text, folder_of(""))
    rows = written.design.keyboard.wiring.of_axis("row")
    assert {mounted_pin(written, row) for row in rows} <= {"PD0", "PD1"}


def mounted_pin(examined, line):
    return examined.mounted[0].pin_of(line).name


def test_a_wire_all_of_whose_keys_were_skipped_stays():
    text = small_text("with diodes")
    assert report(text, PRESSES, skipped="C").text == text


def test_a_reversed_diode_that_no_firmware_could_see_through_is_to_be_turned():
    turned = {**PRESSES, "C": frozenset((read, low) for low, read in PRESSES["C"])}
    found = report(small_text("with diodes"), turned)
    assert found.text == small_text("with diodes")
    assert [(one.key, one.says, one.is_wrong) for one in found.remarks] == [("C", TURN, True)]


HEADS = """\
  # why nothing is said of what is driven
  diodes 1N4148, band toward columns  # from the drawer
  without diode A  # lost
  # above E
  without diode E  # lost too
"""


def test_comments_of_what_is_said_anew_stay():
    text = small_text("with diodes")
    head = text.partition("wiring\n")[2].partition("  row    r0")[0]
    text = text.replace(head, HEADS)
    lines = report(text, PRESSES).text.splitlines()
    kept = [line for line in HEADS.splitlines() if "without" not in line]
    kept[2:2] = ["  # lost"]
    kept += ["  # lost too"]
    assert lines[lines.index("wiring") + 1 :][: len(kept)] == kept


def test_a_statement_is_said_anew_where_it_stands():
    text = small_text("with diodes").replace(
        "  drive columns, sense rows\n", "  # both ways\n  drive columns, sense rows  # so far\n"
    )
    other = {key: frozenset((b, a) for a, b in press) for key, press in PRESSES.items()}
    written = report(text, other).text
    assert "  # both ways\n  drive rows, sense columns  # so far\n" in written
    assert examine_text("small.keys", written, folder_of("")).is_sound


def finished(first):
    """The first drawn file from a seed on whose every key is wired to a pin, and its board."""
    for seed in count(first, DRAWN):
        text = draft(seed, sound=True, most_keys=40).text
        examined = examine_text("drawn.keys", text, folder_of(""))
        if examined.is_finished and (board := board_of(examined.mounted[0])):
            return text, examined, board
    raise AssertionError


@pytest.mark.parametrize("first", range(DRAWN))
def test_any_wiring_is_learned_and_keys_that_are_not_pressed_stay_where_they_are(first):
    chance = random.Random(first)
    text, examined, board = finished(first)
    keys = [key.name.text for key in examined.design.keyboard.keys]
    skipped = set(chance.sample(keys, len(keys) // 3))
    found = report(text, presses_of(board), "drawn.keys", skipped=skipped)
    assert not [one for one in found.remarks if one.is_wrong]
    assert found.text == text
