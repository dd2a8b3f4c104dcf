"""A small edit changes its own block and no other: what `git diff` then shows is the edit."""

import random
import re

import pytest

from matrixgen.format.formatted import formatted
from matrixgen.model import SourceText
from tests.amounts import amount
from tests.format.test_any_file import EXAMPLES, PLAIN, form_of
from tests.language.spacing import Spacing, statements_of

KEY = re.compile(r"(?<=[ ])(?!to |and |line |in )[A-Za-z][\w.-]*(?=[ :\n])")
RENAMED = amount("MATRIXGEN_RENAMED", suite=4, long=200)
LONGER = "Name-that-is-longer-than-any-other"


def blocks_of(text):
    """The blocks of a text in canonical form, without the comments above them."""
    return re.split(r"\n\n(?=\S)", text.removesuffix("\n"))


def changed_blocks(before, after):
    pairs = zip(blocks_of(before), blocks_of(after), strict=True)
    return {number for number, (old, new) in enumerate(pairs) if old != new}


@pytest.mark.parametrize("seed", range(4))
def test_a_key_renamed_in_one_block_moves_nothing_in_another(seed):
    """Renamed there alone, so that every other block still says what it said."""
    chance, tried = random.Random(seed), 0
    while tried < RENAMED:
        text = chance.choice([*PLAIN, *EXAMPLES])
        spaced = Spacing(chance).text(statements_of(text))
        before = form_of(spaced.replace("\r\n", "\n").replace("\r", "\n"))
        blocks = blocks_of(before)
        number = chance.randrange(len(blocks))
        first, _, rest = blocks[number].partition("\n")
        words = [found for found in KEY.finditer(rest) if "#" not in rest[: found.end()]]
        if not words:
            continue
        word = chance.choice(words)
        rest = rest[: word.start()] + LONGER + rest[word.end() :]
        blocks[number] = f"{first}\n{rest}"
        made = formatted(SourceText("x", "\n\n".join(blocks) + "\n"))
        if made.text is None:  # the word was one of the language
            assert made.findings
            continue
        tried += 1
        assert changed_blocks(before, made.text) == {number}


@pytest.mark.few(5)
@pytest.mark.parametrize("text", EXAMPLES)
def test_a_key_renamed_everywhere_changes_only_the_blocks_that_name_it(text):
    before = form_of(text)
    for name in ("Tab", "Q", "Esc", "Enter", "Keypad7", "Keypad0"):
        word = re.compile(rf"(?<=[ ]){re.escape(name)}(?=[ :\n]|\Z)")
        after = form_of(word.sub(LONGER, before))
        naming = {n for n, block in enumerate(blocks_of(before)) if word.search(block)}
        assert changed_blocks(before, after) == naming


def test_a_longer_comment_or_cell_moves_only_its_own_block():
    text = form_of(EXAMPLES[0])
    longer = re.sub("em-dash +~", "em-dash LeftControl", text)
    assert changed_blocks(text, form_of(longer)) == {7}
    longer = text.replace("layer games  #", "layer games-and-more  #")
    assert changed_blocks(text, form_of(longer)) == {5}
