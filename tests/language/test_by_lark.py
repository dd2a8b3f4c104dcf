"""Our parser makes of any file what Lark makes of it, by Lark's own tables.

The same trees, with each word's terminal and place, and the same mistakes: of drawn files, sound
and broken, of the examples, and of every snippet of the lessons.
"""

from __future__ import annotations

import random

import pytest

from matrixgen.resources import resource
from matrixgen.source.automaton import Automaton
from matrixgen.source.lesson_files import every_lesson
from matrixgen.source.parser import parsed_by
from tests.amounts import amount
from tests.generator.files import draft
from tests.language.lark_reader import by_lark, lexer_of
from tests.language.spacing import Spacing, as_unix, statements_of

FILES = amount("MATRIXGEN_FILES_BY_LARK", suite=24, long=2000)
EXAMPLES = sorted((resource("grammar").parent / "examples").rglob("*.keys"))
PIECES = ["\n", "\n  ", "\n  and ", " ", "\t", "\u2028", *'#",=+:~./', "12", "0.5", "ms", "A", "é"]
PIECES += ["layer", "wiring", "and", "tap", "hold", "row", "to", "rows"]


def ours(source, **form):
    text = "\n" + source
    reader = Automaton(text, lexer_of(**form), keeps_all=form["keeps_all"])
    return parsed_by(reader, text, 10**6)


def plain(one):
    """A tree or a word as what can be compared, whoever made it."""
    if isinstance(one, str):
        place = (one.start_pos, one.end_pos, one.line, one.column, one.end_line, one.end_column)
        return one.type, str(one), place
    meta = getattr(one, "meta", one)
    place = [getattr(meta, name, 0) for name in ("line", "column", "end_line", "end_column")]
    return str(one.data), place, [plain(child) for child in one.children]


def check(source, **form):
    mine, lark_s = ours(source, **form), by_lark(source, **form)
    assert mine.mistakes == lark_s.mistakes
    assert plain(mine.tree) == plain(lark_s.tree)
    return mine


def broken(text, chance):
    """A text with a few pieces put in, taken out or copied."""
    for _ in range(chance.randrange(1, 5)):
        at, length = chance.randrange(len(text) + 1), chance.choice((0, 0, 1, 3, 20))
        put = chance.choice([chance.choice(PIECES), text[at : at + 30], ""])
        text = text[:at] + put + text[at + length :]
    return text


FORMS = [{"keeps_all": keeps, "our_words": ours} for keeps in (False, True) for ours in (0, 1)]


@pytest.mark.parametrize("form", FORMS, ids=str)
def test_sound_files_have_the_same_trees(form):
    texts = [draft(seed).text for seed in range(FILES)]
    texts += [path.read_text("utf-8") for path in EXAMPLES]
    for text in texts:
        assert check(text, **form).mistakes == []


def test_files_spaced_in_any_way_have_the_same_trees():
    for seed in range(FILES):
        spaced = Spacing(random.Random(seed)).text(statements_of(draft(seed).text))
        check(as_unix(spaced), keeps_all=True, our_words=True)


@pytest.mark.parametrize("keeps_all", [False, True])
def test_broken_files_have_the_same_trees_and_mistakes(keeps_all):
    found = 0
    for seed in range(5 * FILES):
        chance = random.Random(seed)
        text = broken(draft(chance.randrange(FILES), most_keys=12).text, chance)
        found += len(check(text, keeps_all=keeps_all, our_words=True).mistakes)
    assert found > FILES


def test_the_snippets_of_lessons_break_in_the_same_places():
    for lesson in every_lesson():
        for text in lesson.broken:
            assert check(text, keeps_all=False, our_words=True).mistakes


@pytest.mark.parametrize("text", ["", "\n", "# only a comment", "  \n", "  indented\n", "plate"])
def test_files_of_next_to_nothing_have_the_same_trees(text):
    check(text, keeps_all=False, our_words=True)
