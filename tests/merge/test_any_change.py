"""Whatever two people type into a file, merging it ends in a text and never raises."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from matrixgen.merge import merge
from matrixgen.model import SourceText
from matrixgen.source import design_of
from tests.amounts import amount
from tests.language.test_any_file import RICH
from tests.language.whole import WHOLE
from tests.merge.test_cases import BASE

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*/*.keys"))
TEXTS = [WHOLE, RICH, BASE, *(path.read_text("utf-8") for path in EXAMPLES[:2])]
SEEDS, EACH = 4, amount("MATRIXGEN_MERGES", suite=3, long=500)


def typed_into(text: str, chance: random.Random) -> str:
    """A text with a few lines and words changed, which still reads, or else as it was."""
    for _ in range(20):
        lines = text.splitlines()
        for _ in range(chance.randint(1, 3)):
            change(lines, chance)
        made = "\n".join(lines) + "\n"
        if design_of(SourceText("x", made))[0]:
            return made
    return text


def change(lines: list[str], chance: random.Random) -> None:
    """Take out, move, double or comment a line, or change a word of it for one of the file's."""
    place = chance.randrange(len(lines))
    what = chance.randrange(7)
    if what == 0:
        del lines[place]
    elif what == 1:
        lines.insert(chance.randrange(len(lines)), lines.pop(place))
    elif what == 2:
        lines[place] += "  # " + chance.choice(["one", "two"])
    elif what == 3:
        lines.insert(place, chance.choice(["# above", "", "  # within"]))
    else:
        words = lines[place].split(" ")
        others = chance.choice(lines).split()
        words[chance.randrange(len(words))] = chance.choice(others or ["F5"])
        lines[place] = " ".join(words)
    if not lines:
        lines.append("plate")


@pytest.mark.parametrize("seed", range(SEEDS))
def test_any_two_changes_end_in_a_text(seed):
    chance = random.Random(seed)
    for _ in range(EACH):
        base = chance.choice(TEXTS)
        ours, theirs = typed_into(base, chance), typed_into(base, chance)
        merged = merge(base, ours, theirs)
        assert merged is not None
        assert merge(base, ours, base).text == ours
        found = [one.slug for one in design_of(SourceText("x", merged.text))[1]]
        assert found.count("merge-conflict") == len(merged.conflicts)
        lost = comments(ours) | comments(theirs)
        lost = {one for one in lost if one not in comments(base) and one not in merged.text}
        assert not lost, (ours, theirs, merged.text)


def comments(text: str) -> set[str]:
    return {line.partition("#")[2].strip() for line in text.splitlines() if "#" in line}
