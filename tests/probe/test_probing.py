"""What `probe` makes of presses and typed names, without a terminal."""

import pytest

from matrixgen.bench.dialogues.probing import Probing
from matrixgen.bench.faults.netlist import NONE, Netlist
from tests.probe.boards import suspects_of

SUSPECTS = suspects_of("with diodes")
NETLIST = Netlist(SUSPECTS.board)
KEYS = SUSPECTS.board.keys
PLACE = SUSPECTS.board.place_of


class Maker:
    """Presses keys of a board on which some are soldered in each other's place."""

    def __init__(self, *mixed_up):
        self.probing = Probing(SUSPECTS, NONE)
        self.place = dict(PLACE)
        for one, other in mixed_up:
            self.place[one], self.place[other] = self.place[other], self.place[one]

    def press(self, *keys):
        lines = [x for k in keys for x in self.probing.pressed(NETLIST.pressed(self.place[k]))]
        return "\n".join(lines)

    def type(self, text):
        return "\n".join(self.probing.typed(text))

    @property
    def sees(self):
        """What each key reads as: the key that should, by name."""
        looks = {NETLIST.pressed(place): key for key, place in PLACE.items()}
        return {KEYS[key]: looks[pairs] for key, pairs in self.probing.seen.items()}


def test_one_name_that_was_typed_by_mistake_is_taken_back_by_itself():
    maker = Maker()
    maker.press("A", "B")
    assert "press `B` (itself now, to be sure;" in maker.type("D")
    assert "so `D` was a slip: the press before counts as `B`" in maker.press("B")
    maker.press("C", "D", "E")
    assert maker.probing.is_over
    assert maker.sees == dict(zip(KEYS, KEYS, strict=True))


def test_keys_that_are_mixed_up_are_asked_for_in_turn():
    maker = Maker("BD")
    maker.press("A", "D")
    maker.type("D")
    said = maker.press("B")
    assert "keys are mixed up, so from here on each one is asked for" in said
    assert "press `A` (" in said
    maker.press("A", "C", "E")
    assert maker.probing.is_over
    assert maker.sees == {"A": "A", "B": "D", "C": "C", "D": "B", "E": "E"}


def test_a_press_that_shows_a_key_that_was_seen_is_asked_about():
    maker = Maker()
    assert "again: if you pressed another key, type its name" in maker.press("A", "A")
    maker.press("B")
    assert set(maker.sees) == {"A", "B"}


def test_two_keys_on_the_same_pins_are_both_taken_once_each_is_sure():
    maker = Maker()
    maker.place["D"] = maker.place["B"]
    maker.press("A", "B", "D")
    maker.type("D")
    maker.press("B")  # as asked: so D seems to be a slip
    assert "again" in maker.press("D")
    maker.type("D")
    assert maker.sees["D"] == maker.sees["B"] == "B"


@pytest.mark.parametrize(
    "typed, over", [("stop", True), (":stop", True), ("Q", False), ("", False)]
)
def test_typed_words(typed, over):
    maker = Maker()
    said = maker.type(typed)
    assert maker.probing.is_over == over
    assert ("no key `Q`" in said) == (typed == "Q")
    assert ("press `A` (" in said) == (typed == "")


def test_a_shown_key_that_cannot_be_pressed_means_that_keys_are_mixed_up():
    maker = Maker()
    maker.press("B")
    maker.type("D")
    assert "keys are mixed up" in maker.type("")
    assert maker.probing.seen[PLACE["B"]] == NONE


@pytest.mark.parametrize("left_after", range(6))
def test_answers_are_taken_up(left_after):
    before, after = Maker("BD"), Probing(SUSPECTS, NONE)
    for key in KEYS[:left_after]:
        before.press(key)
    after.take_up(before.probing.answers)
    assert after.seen == before.probing.seen
    assert after.answers == before.probing.answers
    assert ("keys left" in "".join(after.begins())) == (0 < left_after < len(KEYS))
