"""The page of each kind of mistake: its headings, and that its examples do what it says."""

import re

import pytest

from matrixgen.source import problems, read_keyboard
from tests.language.whole import completed

HEADINGS = ["What it does", "Why it matters", "Example", "Do instead", "Reference"]
FENCE = re.compile(r"^```(keys(?: whole)?|sh)\n(.*?)^```$", re.S | re.M)
WITH_KEYS = [one for one in problems.PROBLEMS if "```keys" in one.page]


def by_slug(problem):
    return problem.slug


def slugs_of(kind, text):
    text = text if kind == "keys whole" else completed(text)
    return {found.slug for found in read_keyboard("page.keys", text)[1]}


@pytest.mark.parametrize("problem", problems.PROBLEMS, ids=by_slug)
def test_a_page_has_a_title_and_the_five_headings(problem):
    assert problem.page.startswith(f"# {problem.title}\n")
    assert re.findall(r"^## (.*)$", problem.page, re.M) == HEADINGS


@pytest.mark.parametrize("problem", problems.PROBLEMS, ids=by_slug)
def test_a_problem_lives_in_the_file_of_its_slug(problem):
    assert problems.problem(problem.slug) is problem


@pytest.mark.parametrize("problem", WITH_KEYS, ids=by_slug)
def test_the_example_has_just_this_mistake_and_the_cure_has_none(problem):
    example, instead = FENCE.findall(problem.page)
    assert slugs_of(*example) == {problem.slug}
    assert slugs_of(*instead) == set()


def test_only_the_pages_about_files_have_examples_for_a_shell():
    others = {one.slug for one in problems.PROBLEMS if one not in WITH_KEYS}
    assert others == {"unreadable-file", "not-utf8"}


def test_slugs_are_unique():
    assert len(set(problems.SLUGS)) == len(problems.SLUGS)
