"""Every example, every code block of a page, and the starter are in the canonical form."""

import re
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.boards.problems import PROBLEMS as OF_BOARDS
from matrixgen.format.formatted import formatted
from matrixgen.jobs.problems import PROBLEMS as OF_JOBS
from matrixgen.jobs.starter import NEEDED_PINS, starter
from matrixgen.model import SourceText
from matrixgen.rules import PROBLEMS as OF_RULES
from matrixgen.source.problems import PROBLEMS as OF_READING
from matrixgen.source.tree import every_statement
from matrixgen.source.tree_reader import tree_of
from tests.pages import PAGES as EVERY_PAGE
from tests.pages import page

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").rglob("*.keys"))
PAGES = {
    **{name: page(name) for name in EVERY_PAGE},
    **{
        one.slug: one.page
        for one in (*OF_RULES, *OF_READING.all(), *OF_BOARDS.all(), *OF_JOBS.all())
    },
}
FENCE = re.compile(r"^( *)```keys(?: whole)?\n(.*?)^ *```$", re.MULTILINE | re.DOTALL)
UNREADABLE = {
    "merge-conflict",
    "misplaced-statement",
    "syntax",
    "unknown-block",
    "unknown-statement",
}
"""Pages whose example is broken so that it cannot be read, and so has no form."""


def blocks_of(page):
    return [re.sub(f"(?m)^{blanks}", "", text) for blanks, text in FENCE.findall(page)]


CODE = [
    pytest.param(name, text, id=f"{name}-{number}")
    for name, page in PAGES.items()
    for number, text in enumerate(blocks_of(page))
]


def is_readable(text):
    tree = tree_of(SourceText("x", text))
    return not tree.loose and all(one.rule for one in every_statement(tree))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_is_in_canonical_form(path):
    text = path.read_bytes().decode("utf-8")
    assert formatted(SourceText("x", text)).text == text


@pytest.mark.few(175)
@pytest.mark.parametrize(("name", "text"), CODE)
def test_a_page_s_code_is_in_canonical_form(name, text):
    if is_readable(text):
        assert formatted(SourceText("x", text)).text == text
    else:
        assert name in UNREADABLE


def test_the_pages_code_was_found_and_hardly_any_is_exempt():
    assert len(EXAMPLES) >= 6 and len(CODE) > 130
    broken = [param for param in CODE if not is_readable(param.values[1])]
    assert len(broken) <= len(UNREADABLE)


@pytest.mark.parametrize("name", builtin_names())
def test_the_starter_is_in_canonical_form(name):
    profile = builtin_profile(name)
    if len(profile.free_pins) < NEEDED_PINS:
        pytest.skip("too few pins for it")
    text = starter("Pad", Path("Pad.keys"), profile)
    assert formatted(SourceText("x", text)).text == text


def test_the_reference_shows_a_file_before_and_after():
    section = PAGES["grammar/README.md"].partition("## The canonical form\n")[2]
    before = re.search(r"^```text\n(.*?)^```$", section, re.M | re.S)[1]
    assert formatted(SourceText("x", before)).text == blocks_of(section)[0] != before
