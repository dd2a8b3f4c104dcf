"""What a name, pin or comment that is changed moves: a change is seen as itself in `git diff`.

Words of one file are changed at random, as somebody would. A wire, an action or a cluster with
another name is then another text in the lines that name it, and hardly any other line is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from random import Random

import pytest

from tests.amounts import amount
from tests.format.test_any_file import EXAMPLES, form_of
from tests.format.test_small_edits import blocks_of
from tests.texts import keyboard_in

RENAMES = amount("MATRIXGEN_RENAMES", suite=15, long=600)
"""How many are tried of each kind."""

NEW = """
R1 C12 top low middle home left right thumb thumb-left far-right centre inner outer index-2
ring-left little-r upper-row bottom-row number-row reach-l row-three column-12 copy paste
em-dash select-all
"""
NEW_KEYS = "Esc Tab Space LeftCtrl RightShift PageDown Insert F11 Keypad7 Enter Fn K1 K27"


def names_of(text: str) -> dict[str, list[str]]:
    """The names that a file gives, by what they name."""
    keyboard = keyboard_in(text)
    return {
        "wire": [line.name.text for line in keyboard.wiring.lines],
        "action": [one.name.text for one in keyboard.actions],
        "cluster": [one.name.text for one in keyboard.plate.clusters],
        "layer": [one.name.text for one in keyboard.layers if one.name.text != "base"],
        "key": [one.name.text for one in keyboard.keys],
    }


def renamed(text: str, old: str, new: str) -> str:
    return re.sub(rf"(?<!\S){re.escape(old)}(?=[\s:]|\Z)", new, text)


def changed_lines(before: str, after: str) -> int:
    matcher = SequenceMatcher(None, before.splitlines(), after.splitlines(), autojunk=False)
    return sum(max(b - a, d - c) for tag, a, b, c, d in matcher.get_opcodes() if tag != "equal")


def edits(kind: str) -> Iterator[tuple[str, str, str, str]]:
    """Renamings: a file in canonical form, its new form, the file in between, and the new name."""
    for seed in range(RENAMES):
        chance = Random(f"{kind} {seed}")
        text = chance.choice([one for one in EXAMPLES if names_of(one)[kind]])
        old = chance.choice(names_of(text)[kind])
        more = f"{old}-{chance.choice(('a', '12', 'left', 'longer'))}"
        new = chance.choice(NEW_KEYS.split() if kind == "key" else [*NEW.split(), more, more])
        is_taken = re.search(rf"(?<!\S){re.escape(new)}(?!\S)", text)
        if not is_taken and not old.isdigit():  # a digit is another number elsewhere
            plainly = renamed(text, old, new)
            yield text, form_of(plainly), plainly, new


def moved(kind: str) -> list[int]:
    """How many lines each renaming changes beyond those that say the name."""
    found = [
        changed_lines(before, after) - changed_lines(before, plainly)
        for before, after, plainly, _ in edits(kind)
    ]
    assert len(found) > RENAMES / 3
    return found


@pytest.mark.parametrize("kind", ["wire", "cluster"])
def test_another_name_changes_the_lines_that_say_it_and_no_other(kind):
    assert set(moved(kind)) == {0}


@pytest.mark.parametrize("kind", ["action", "layer"])
def test_a_name_that_a_picture_or_a_list_says_seldom_moves_more_than_three_other_lines(kind):
    """There it is a cell that stands below others."""
    found = moved(kind)
    assert sum(one <= 3 for one in found) >= 0.9 * len(found)


def test_a_key_s_new_name_moves_what_is_below_it_on_the_plate_and_no_wire():
    tried = 0
    for before, after, _, new in edits("key"):
        tried += 1
        old, made = (blocks_of(text) for text in (before, after))
        for one, other in zip(old, made, strict=True):
            if one.startswith(("wiring", "actions", "keyboard")):
                changed = set(other.splitlines()) - set(one.splitlines())
                assert all(new in re.split(r"[\s:]", line) for line in changed)
    assert tried > RENAMES / 3


def test_a_pin_a_colour_or_a_comment_of_another_length_changes_one_line():
    text = form_of(
        "wiring\n row r0 on GP1 wire black A B # the first\n row r1 on GP9 wire red C D"
        " # below it\n"
        " column c0 on GP2 wire white A C\n column c1 on GP3 wire grey B D # and this\n"
    )
    for old, new in (
        ("GP9", "GP10"),
        ("red", "violet"),
        ("below it", "in the middle"),
        ("C D", "C"),
    ):
        after = form_of(text.replace(old, new))
        assert changed_lines(text, after) == 1
