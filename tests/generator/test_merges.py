"""Merges of drawn files beside a three-way over their facts, written here a second time.

Both sides change some words of a drawn file, at places of their own. A file with all of them says
what the merge has to mean. A fact that one side changed has that side's value; a conflict is only
where both changed one fact, or places that a statement has together.
`MATRIXGEN_MERGED=5000` tries as many.
"""

from __future__ import annotations

from random import Random
from typing import Any

import pytest

from matrixgen.compare.facts import facts_of
from matrixgen.merge import merge
from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.source import design_of
from matrixgen.source.tree_reader import tree_of
from tests.amounts import amount
from tests.generator.files import draft
from tests.generator.word_edits import NAMES, other_word, places, with_words

MERGED = amount("MATRIXGEN_MERGED", suite=16, long=5000)
MISSING = object()

DERIVED = ("hand",)
"""Kinds of facts that no word says: the whole plate does."""


def read(text: str):
    return design_of(SourceText("pad.keys", text))[0]


def flat(text: str) -> dict[Any, Any]:
    """The facts of a file, the members of a set each as a fact of its own."""
    found: dict[Any, Any] = {}
    for path, value in facts_of(read(text)).items():
        if path[0] in DERIVED:
            continue
        if isinstance(value, frozenset):
            found |= {(*path, "has", one): True for one in value}
        else:
            found[path] = value
    return found


def three_way(base: str, ours: str, theirs: str) -> tuple[dict[Any, Any], set[Any]]:
    """What both sides agree on, and the facts of which they do not."""
    old, mine, other = map(flat, (base, ours, theirs))
    agreed: dict[Any, Any] = {}
    disputed = set()
    for path in {**old, **mine, **other}:
        was, one, two = (facts.get(path, MISSING) for facts in (old, mine, other))
        if was not in (one, two) and (one != two or "has" in path or path[0] == "key"):
            # a hole that both moved is gone from either side; a key that both moved by one way,
            # one by its line and one by its cluster, is moved twice
            disputed.add(path)
        value = two if one == was else one
        if value is not MISSING:
            agreed[path] = value
    return agreed, disputed


def drawn(seed: int) -> tuple[str, str, str, str, list[str]] | None:
    """A base, two sides, what has all of their changes, and the kinds of words; or None."""
    chance = Random(f"merge {seed}")
    base = draft(seed, sound=seed % 2 == 0, most_keys=40).text
    found = places(tree_of(SourceText("pad.keys", base)))
    kinds = sorted({(rule, piece.terminal) for _, piece, rule in found})
    picked = {}
    for _ in range(2 * chance.randint(1, 4)):
        kind = chance.choice(kinds)
        place, piece, rule = chance.choice([o for o in found if (o[2], o[1].terminal) == kind])
        word = other_word(chance, piece, rule)
        if word and word != piece.text:
            picked[place] = (word, f"{rule} {piece.terminal}")
    items = sorted(picked.items())
    chance.shuffle(items)
    half = len(items) // 2
    sides = [{place: word for place, (word, _) in some} for some in (items[:half], items[half:])]
    texts = [with_words(base, side) for side in (*sides, {**sides[0], **sides[1]})]
    if not all(map(read, (base, *texts))):
        return None
    return base, texts[0], texts[1], texts[2], [kind for _, (_, kind) in items]


@pytest.mark.parametrize("seed", range(MERGED))
def test_a_merge_says_what_a_three_way_over_the_facts_says(seed):
    made = drawn(seed)
    if made is None:
        return  # a word is a mistake there, such as a key that is out of the plate's reach
    base, ours, theirs, both, kinds = made
    merged = merge(base, ours, theirs)
    assert merged is not None, kinds
    agreed, disputed = three_way(base, ours, theirs)
    if merged.conflicts:
        assert disputed, (kinds, merged.conflicts)
        return
    assert meaning_of(read(merged.text)) == meaning_of(read(both)), kinds
    if not disputed and not any(kind.endswith(NAMES) for kind in kinds):
        assert flat(merged.text) == agreed, kinds
