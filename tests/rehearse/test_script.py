"""Scripts of a rehearsal: what is read of them, and what is said of their mistakes."""

import re
from pathlib import Path

import pytest

from matrixgen import rehearse
from matrixgen.jobs.catalogue import find_problem
from matrixgen.model import Keyboard
from matrixgen.rehearse.problems import PROBLEMS
from matrixgen.rehearse.script import LONGEST_WAIT_MS, KnobTurn, Move, Tap, Wait, read_script
from tests.texts import keyboard_in

HEADINGS = ["What it does", "Why it matters", "Example", "Do instead", "Reference"]
FENCE = re.compile(r"^```rehearsal\n(.*?)^```$", re.S | re.M)
PAGES = PROBLEMS.all()


def keyboard(plate="line A B Space Space.2 - wait7"):
    return keyboard_in(f"plate\n  {plate}\nlayer base\n  wait7 = A\n")


def steps_of(text):
    steps, found = read_script("steps", text, keyboard())
    assert found == []
    return steps


def found_in(text, **more):
    _, found = read_script("steps", text, keyboard(), **more)
    return [(one.slug, (one.span.line, one.span.column, one.span.end_column)) for one in found]


def test_steps_are_words_or_lines_and_comments_are_none():
    text = "+A wait 200 # -A B\n\n  B\r\n-A#\n"
    assert steps_of(text) == [Move("A", True), Wait(200), Tap("B"), Move("A", False)]


def test_a_unit_may_follow_a_time():
    assert steps_of("wait 5 ms wait 6ms wait 0 A") == [Wait(5), Wait(6), Wait(0), Tap("A")]


def test_signs_and_tags_are_names_of_keys():
    assert steps_of("- +- -- +Space.2 wait7") == [
        Tap("-"),
        Move("-", True),
        Move("-", False),
        Move("Space.2", True),
        Tap("wait7"),
    ]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("A\n  +C", ("unknown-step", (2, 3, 5))),
        ("a", ("unknown-step", (1, 1, 2))),
        ("press A", ("unknown-step", (1, 1, 6))),
        ("+", ("unknown-step", (1, 1, 2))),
        ("wait", ("bad-wait", (1, 1, 5))),
        ("wait +A -A", ("bad-wait", (1, 1, 5))),
        ("wait\n20", ("bad-wait", (1, 1, 5))),
        ("wait long -A", ("bad-wait", (1, 6, 10))),
        ("wait 2s", ("bad-wait", (1, 6, 8))),
        ("wait 1.5", ("bad-wait", (1, 6, 9))),
        ("wait ²", ("bad-wait", (1, 6, 7))),
        (f"wait {LONGEST_WAIT_MS + 1}", ("bad-wait", (1, 6, 11))),
        (f"wait {'9' * 5000}", ("bad-wait", (1, 6, 5006))),
        ("+A +A -A", ("key-already-down", (1, 4, 6))),
        ("+A A -A", ("key-already-down", (1, 4, 5))),
        ("A -A", ("key-not-down", (1, 3, 5))),
    ],
)
def test_a_mistake_is_found_in_its_place(text, found):
    assert found_in(text)[0] == found


def test_mistakes_are_told_all_at_once_and_an_unknown_name_once():
    assert [slug for slug, _ in found_in("+C -C C +A +A wait")] == [
        "unknown-step",
        "key-already-down",
        "bad-wait",
    ]


def test_a_key_that_was_pressed_by_a_wrong_name_is_not_said_to_be_up_too():
    assert [slug for slug, _ in found_in("+Spcae wait 9 -Space")] == ["unknown-step"]


def test_a_similar_name_is_offered():
    _, (found,) = read_script("steps", "+Spcae", keyboard())
    assert found.helps == ("`Space` has a similar name",)
    _, (found,) = read_script("steps", "waitt", keyboard())
    assert found.helps == ("`wait` has a similar name",)


def test_keys_may_be_down_before():
    assert found_in("+A", down={"A"}) == [("key-already-down", (1, 1, 3))]
    assert found_in("-A +A", down={"A"}) == []


def test_a_key_that_is_called_wait_is_a_key():
    words = "plate\n  line A wait ms\nlayer base\n  wait = B  ms = C\n"
    steps, found = read_script("steps", "wait ms +wait", keyboard_in(words))
    assert (steps, found) == ([Tap("wait"), Tap("ms"), Move("wait", True)], [])


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.slug)
def test_a_page_has_its_headings_and_its_example_just_its_mistake(page):
    assert re.findall(r"^## (.*)$", page.page, re.M) == HEADINGS
    example, instead = FENCE.findall(page.page)
    pad = keyboard("line A Space wait7\n  knob volume at 4, 0.5")
    assert {found.slug for found in read_script("x", example, pad)[1]} == {page.slug}
    assert read_script("x", instead, pad)[1] == []
    assert find_problem(page.slug) == page


def test_every_page_is_reported():
    code = (Path(rehearse.__file__).parent / "script.py").read_text("utf-8")
    assert {page.slug for page in PAGES} == set(re.findall(r'_report\(\s*"([a-z-]+)"', code))


def knobs() -> Keyboard:
    words = "plate\n  line A B turn7\n  knob volume at 4, 0.5\n  knob jog at 5, 0.5\n"
    return keyboard_in(words)


def test_a_knob_turns_by_words_or_by_the_name_of_a_step():
    steps, found = read_script("x", "turn volume right 3 A turn jog left volume.left B", knobs())
    assert found == []
    turns = [KnobTurn("volume", 1, 3), KnobTurn("jog", -1, 1), KnobTurn("volume", -1, 1)]
    assert steps == [turns[0], Tap("A"), *turns[1:], Tap("B")]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("turn", "`turn` has no knob after it"),
        ("turn A right", "`A` is no knob of the plate"),
        ("turn volume", "`volume` is neither `left` nor `right`"),
        ("turn volume up", "`up` is neither `left` nor `right`"),
        ("turn volume right 0", "`0` is no number of steps from 1 to 1000"),
        ("turn volume right 1001", "`1001` is no number of steps from 1 to 1000"),
        ("turn volume right 1²", "`1²` is no number of steps from 1 to 1000"),
    ],
)
def test_a_turn_that_does_not_say_what_is_reported(text, message):
    _, (found, *_) = read_script("x", text, knobs())
    assert (found.slug, found.message) == ("bad-turn", message)
