"""Syntax taught by example: each snippet breaks once, and gets the lesson that it stands in."""

import pytest

from matrixgen.source.lessons import every_lesson, lesson_for
from matrixgen.source.parser import parse
from matrixgen.source.statements import BLOCKS, STATEMENTS

SNIPPETS = [(text, lesson) for lesson in every_lesson() for text in lesson.broken]


@pytest.mark.parametrize(("text", "lesson"), SNIPPETS, ids=[text for text, _ in SNIPPETS])
def test_a_broken_snippet_gets_its_own_lesson(text, lesson):
    (mistake,) = parse(text, 10).mistakes
    assert lesson_for(mistake) is lesson


def test_no_snippet_is_in_two_lessons():
    texts = [text for text, _ in SNIPPETS]
    assert len(texts) == len(set(texts))


@pytest.mark.parametrize("block", BLOCKS.values(), ids=BLOCKS)
def test_the_form_of_a_block_is_a_line_that_can_be_read(block):
    parsed = parse(f"{block.form}\n", 10)
    assert parsed.mistakes == []
    assert [child.data for child in parsed.tree.children] == [block.keyword]


@pytest.mark.parametrize("rule", STATEMENTS)
def test_the_form_of_a_statement_is_a_line_of_its_rule(rule):
    statement = STATEMENTS[rule]
    parsed = parse(f"{BLOCKS[statement.block].form}\n  {statement.form}\n", 10)
    assert parsed.mistakes == []
    (block,) = parsed.tree.children
    assert block.children[-1].data == rule
    assert statement.keyword in (None, statement.form.split()[0])
