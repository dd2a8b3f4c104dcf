"""Two copies of a keyboard are changed at random, in different things: the merge has both changes.

The reference is a model of the test's own: lists and dictionaries to which both sides' changes are
made one after the other. `MATRIXGEN_MERGES=400` makes each run twenty times as long.
"""

from __future__ import annotations

import random
from copy import deepcopy

import pytest

from matrixgen.merge import merge
from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.source import design_of
from matrixgen.source.tree_reader import comments_of
from tests.amounts import amount
from tests.language.spacing import Spacing, statements_of
from tests.merge.edits import two_sides
from tests.merge.keyboards import Keyboard, random_keyboard
from tests.texts import design_in

SEEDS, EACH = 4, amount("MATRIXGEN_MERGES", suite=3, long=500)


def said(text: str):
    return meaning_of(design_in(text))


def changed_by(board: Keyboard, *sides) -> Keyboard:
    made = deepcopy(board)
    for edits in sides:
        for edit in edits:
            edit.apply(made)
    return made


def versions_of(board: Keyboard, *sides) -> list[str]:
    """Return the text of a keyboard, and those of what each side makes of it."""
    return [board.text(), *(changed_by(board, edits).text() for edits in sides)]


@pytest.mark.parametrize("seed", range(SEEDS))
def test_both_sides_changes_are_made(seed):
    chance = random.Random(seed)
    for _ in range(EACH):
        board = random_keyboard(chance)
        ours, theirs = two_sides(board, chance)
        base, one, two = versions_of(board, ours, theirs)
        merged = merge(base, one, two)
        told = [edit.says for edit in ours], [edit.says for edit in theirs]
        assert merged is not None, (told, base)
        assert not merged.conflicts, (told, merged.text)
        both = changed_by(board, ours, theirs).text()
        assert said(merged.text) == said(both), (told, merged.text, both)
        assert sorted(comments_of(merged.text)) == sorted(comments_of(both)), (told, merged.text)


def is_apart(edit: str) -> bool:
    """Whether an edit is apart from comments, which such a side has at every statement."""
    return "comment" not in edit and "remove hole" not in edit


@pytest.mark.parametrize("seed", range(SEEDS))
def test_a_side_that_was_spaced_anew_makes_no_conflict(seed):
    chance = random.Random(100 + seed)
    for _ in range(EACH // 2):
        board = random_keyboard(chance)
        board.comments.clear()
        ours, theirs = two_sides(board, chance)
        ours, theirs = ([e for e in one if is_apart(e.says)] for one in (ours, theirs))
        base, one, two = versions_of(board, ours, theirs)
        spaced = Spacing(chance).text(statements_of(one))
        merged = merge(base, spaced, two)
        assert merged is not None
        assert not merged.conflicts, merged.text
        assert said(merged.text) == said(changed_by(board, ours, theirs).text())
        kept = set(comments_of(spaced)) - {"# a keyboard made at random"}
        assert kept <= set(comments_of(merged.text)) | {"#"}


@pytest.mark.parametrize("seed", range(SEEDS))
def test_a_side_that_did_nothing_leaves_the_other_as_it_is(seed):
    chance = random.Random(200 + seed)
    for _ in range(EACH):
        board = random_keyboard(chance)
        base = Spacing(chance).text(statements_of(board.text()))
        ours, _ = two_sides(board, chance)
        other = Spacing(chance).text(statements_of(changed_by(board, ours).text()))
        for versions, result in (
            ((base, other, base), other),
            ((base, base, other), other),
            ((other, other, other), other),
            ((base, other, other), other),
        ):
            merged = merge(*versions)
            assert merged is not None and (merged.text, merged.conflicts) == (result, ())


@pytest.mark.parametrize("seed", range(SEEDS))
def test_which_side_is_which_changes_nothing_but_the_order(seed):
    chance = random.Random(300 + seed)
    for _ in range(EACH):
        board = random_keyboard(chance)
        ours, theirs = two_sides(board, chance)
        base, one, two = versions_of(board, ours, theirs)
        forth, back = merge(base, one, two), merge(base, two, one)
        assert forth is not None and back is not None
        assert unordered(said(forth.text)) == unordered(said(back.text))


def unordered(meaning: dict) -> dict:
    """A meaning whose layers, and keys on a wire, are in no order."""
    keyboard = dict(meaning["keyboard"])
    keyboard["layers"] = sorted(map(repr, keyboard["layers"]))
    wiring = dict(keyboard["wiring"])
    wiring["lines"] = [{**line, "visits": set(line["visits"])} for line in wiring["lines"]]
    keyboard["wiring"] = wiring
    keyboard["layers"] = [sorted(layer) for layer in keyboard["layers"]]
    return {**meaning, "keyboard": keyboard}


@pytest.mark.parametrize("seed", range(SEEDS))
def test_whatever_both_sides_do_nothing_is_lost(seed):
    """Changes that may be to one thing: a name of one side is in the merge, or in a conflict."""
    chance = random.Random(400 + seed)
    for _ in range(EACH):
        board = random_keyboard(chance)
        ours, _ = two_sides(board, chance)
        theirs, _ = two_sides(board, chance)
        theirs = [edit for edit in theirs if edit.says not in {one.says for one in ours}]
        base, one, two = versions_of(board, ours, theirs)
        merged = merge(base, one, two)
        assert merged is not None
        words, old = set(merged.text.split()), set(base.split())
        for side in (one, two):
            names = {
                word for word in set(side.split()) - old if word[:1] in "NAw" and word[1:].isdigit()
            }
            assert names <= words, (merged.text, one, two)
        if merged.conflicts:
            _, found = design_of(SourceText("x", merged.text))
            assert [each.slug for each in found] == ["merge-conflict"] * len(merged.conflicts)
            assert all(about in merged.text for about in merged.conflicts)
