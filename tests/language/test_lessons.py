"""Syntax taught by example: each snippet breaks once, and gets the lesson that it stands in."""

import pytest

from matrixgen.source.lessons import FORMS, LESSONS
from matrixgen.source.parser import parse
from matrixgen.source.statements import BLOCKS, STATEMENT_BLOCKS
from matrixgen.source.syntax import lesson_for

SNIPPETS = [(label, text) for label, lesson in LESSONS.items() for text in lesson.broken]


@pytest.mark.parametrize(("label", "text"), SNIPPETS)
def test_a_broken_snippet_gets_its_own_lesson(label, text):
    (mistake,) = parse(text, 10).mistakes
    assert lesson_for(mistake) is LESSONS[label]


def test_every_kind_of_line_has_a_form_to_show():
    assert set(FORMS) == {*BLOCKS, *STATEMENT_BLOCKS}


@pytest.mark.parametrize(("first", "form"), FORMS.items())
def test_a_form_is_a_line_that_can_be_read(first, form):
    home = STATEMENT_BLOCKS.get(first)
    header = {"keyboard": 'keyboard "A"'}.get(home, home)
    assert parse(f"{header}\n  {form}\n" if home else f"{form}\n", 10).mistakes == []
