"""An action's own words, read again, are that action; and parts may be named before they stand."""

import random

import pytest

from matrixgen.model.actions import (
    ChangeBase,
    HoldLayer,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Pointer,
    Press,
    TapHold,
    UnlatchLayers,
)
from matrixgen.model.actions.tap_hold import AFTER_MS, ROLL_MS
from matrixgen.source import read_design
from matrixgen.usages.pointer import pointer_usage_of, pointer_words
from tests.language.whole import completed
from tests.texts import keyboard_in

LAYERS = "layer one\n  A = 1\n\nlayer two\n  B = 2\n"
ALONE = (
    Press(0x04),
    Press(0x06, 0x01),
    Press(0, 0x22),
    LatchLayer("one"),
    UnlatchLayers(),
    OnceLayer("two"),
    OnceModifiers(0x02),
    OnceModifiers(0x93),
    ChangeBase("base"),
    ChangeBase("one"),
    Nothing(),
    Press(0xA5),
    Media(0x0C, 0x1B0),
    Media(0x0C, 0x001),
    Media(0x01, 0xA8),
    *(Pointer(*found) for word in pointer_words() if (found := pointer_usage_of(word))),
)


def read(phrase, more=""):
    """Return what an action is read as."""
    text = completed(f"actions\n  it = {phrase}\n{more}\n{LAYERS}")
    return keyboard_in(text).actions[0].action


@pytest.mark.parametrize("action", [*ALONE, HoldLayer("one")], ids=lambda one: one.phrase)
def test_the_words_of_an_action_are_read_as_that_action(action):
    assert read(action.phrase) == action


@pytest.mark.parametrize("seed", range(40))
def test_the_words_of_a_tap_and_hold_are_read_as_that_action(seed):
    chance = random.Random(seed)
    for _ in range(5):
        action = TapHold(
            tap=chance.choice(ALONE),
            hold=chance.choice([*ALONE, HoldLayer("two")]),
            after_ms=chance.choice([AFTER_MS, 50, 180, 2000]),
            decided_by=chance.choice(["time", "press", "release"]),
            roll_ms=chance.choice([ROLL_MS, 0, 150, 500]),
            other_hand=chance.random() < 0.5,
        )
        assert read(action.phrase) == action
        assert read(shuffled(action.phrase, chance)) == action


def shuffled(phrase, chance):
    """The same with what decides in another order, and blanks where they may stand."""
    tap, hold, *others = phrase.split(", ")
    chance.shuffle(others)
    return chance.choice([",", " , ", ",  "]).join([tap, hold, *others]).replace(" ms", "ms")


def test_what_is_not_said_is_as_the_reference_has_it():
    assert read("tap A, hold Shift") == TapHold(
        tap=Press(0x04),
        hold=Press(0, 0x02),
        after_ms=200,
        decided_by="release",
        roll_ms=100,
        other_hand=False,
    )


def test_a_part_may_be_named_before_it_stands():
    more = "  later = latch layer one\n  last = Ctrl+C\n"
    assert read("tap last, hold later", more) == TapHold(Press(0x06, 0x01), LatchLayer("one"))


def test_a_part_that_could_not_be_read_is_told_once():
    text = completed("actions\n  it = tap copy, hold Ctrl\n  copy = Ctrl+Foo\n")
    _, found = read_design("phrase.keys", text)
    assert [one.slug for one in found] == ["unknown-usage"]
