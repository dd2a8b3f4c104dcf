"""Syntax taught by example: each snippet breaks once, and gets the lesson that it stands in."""

import tomllib

import pytest

from matrixgen.resources import resource
from matrixgen.source.lesson_files import every_lesson
from matrixgen.source.lessons import lesson_for
from matrixgen.source.parser import parse
from matrixgen.source.phrases import EVERY
from matrixgen.source.statements import BLOCKS, STATEMENTS

SNIPPETS = [(text, lesson) for lesson in every_lesson() for text in lesson.broken]


@pytest.mark.few(500)
@pytest.mark.parametrize(("text", "lesson"), SNIPPETS, ids=[text for text, _ in SNIPPETS])
def test_a_broken_snippet_gets_its_own_lesson(text, lesson):
    (mistake,) = parse(text, 10).mistakes
    assert lesson_for(mistake) is lesson


def test_no_snippet_is_in_two_lessons():
    texts = [text for text, _ in SNIPPETS]
    assert len(texts) == len(set(texts))


def test_a_lesson_is_of_a_block_a_statement_or_a_phrase():
    known = {*BLOCKS, *STATEMENTS, *(phrase.rule for phrase in EVERY)}
    assert {lesson.rule for lesson in every_lesson()} <= known


@pytest.mark.parametrize("name", [*BLOCKS, "phrases"])
def test_a_file_of_lessons_has_no_words_that_none_of_its_helps_needs(name):
    text = (resource("grammar") / "lessons" / f"{name}.toml").read_text(encoding="utf-8")
    for word in tomllib.loads(text).get("words", {}):
        assert text.count(f"{{{word}}}") > 1


def test_every_file_of_lessons_is_read():
    files = {path.stem for path in (resource("grammar") / "lessons").iterdir()}
    assert files == {*BLOCKS, "phrases"}


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
