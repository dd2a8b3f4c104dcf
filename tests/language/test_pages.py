"""The page of each kind of mistake: its headings, and that its examples do what it says."""

import re
from pathlib import Path

import pytest

from matrixgen import source
from matrixgen.source import read_design
from matrixgen.source.problems import PROBLEMS as PAGES
from tests.language.whole import completed

HEADINGS = ["What it does", "Why it matters", "Example", "Do instead", "Reference"]
FENCE = re.compile(r"^```(keys(?: whole)?|sh)\n(.*?)^```$", re.S | re.M)
PROBLEMS = PAGES.all()
WITH_KEYS = [one for one in PROBLEMS if "```keys" in one.page]


def by_slug(problem):
    return problem.slug


def slugs_of(kind, text):
    text = text if kind == "keys whole" else completed(text)
    return {found.slug for found in read_design("page.keys", text)[1]}


@pytest.mark.parametrize("problem", PROBLEMS, ids=by_slug)
def test_a_page_has_a_title_and_the_five_headings(problem):
    assert problem.page.startswith(f"# {problem.title}\n")
    assert problem.title[0].islower() and problem.title[-1] != "."
    assert re.findall(r"^## (.*)$", problem.page, re.M) == HEADINGS


def test_a_slug_without_a_page_is_no_problem_of_this_room():
    assert PAGES.get("syntax") is PAGES["syntax"]
    assert PAGES.get("ghost-possible") is None


@pytest.mark.parametrize("problem", WITH_KEYS, ids=by_slug)
def test_the_example_has_just_this_mistake_and_the_cure_has_none(problem):
    example, instead = FENCE.findall(problem.page)
    assert slugs_of(*example) == {problem.slug}
    assert slugs_of(*instead) == set()


def test_only_the_pages_about_files_have_examples_for_a_shell():
    others = {one.slug for one in PROBLEMS if one not in WITH_KEYS}
    assert others == {"unreadable-file", "not-utf8"}


def test_every_slug_that_the_room_reports_has_a_page_and_every_page_is_reported():
    room = Path(source.__file__).parent
    code = "".join(path.read_text("utf-8") for path in room.rglob("*.py"))
    slugs = {problem.slug for problem in PROBLEMS}
    assert slugs <= set(re.findall(r'"([a-z0-9]+(?:-[a-z0-9]+)+|syntax)"', code))
    reported = re.findall(r'(?:report|problem)\(\s*"([a-z0-9-]+)"', code)
    assert set(reported) <= slugs
