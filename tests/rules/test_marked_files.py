"""Every rule against .keys files that say, on the line, what is to be found and where."""

from pathlib import Path

import pytest

from matrixgen.jobs.examine import examine
from matrixgen.rules import PROBLEMS
from tests.rules.marks import actual, expected

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*/*/*.keys"))
SLUGS = {problem.slug for problem in PROBLEMS}


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_file_has_the_findings_that_it_marks_and_no_others(path):
    text = path.read_text(encoding="utf-8")
    examined = examine(str(path)).as_finished()
    assert actual(text, list(examined.findings)) == expected(text), examined.findings


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_broken_file_breaks_the_rule_of_its_folder_and_a_fine_one_does_not(path):
    slugs = {found.slug for found in expected(path.read_text(encoding="utf-8"))}
    assert path.stem.startswith("broken") == (path.parent.name in slugs)


@pytest.mark.parametrize("slug", sorted(SLUGS))
def test_a_rule_has_a_broken_and_a_fine_file(slug):
    stems = {path.stem.split("-")[0] for path in FILES if path.parent.name == slug}
    assert stems == {"broken", "fine"}


def test_every_folder_is_named_for_a_rule():
    assert {path.parent.name for path in FILES} == SLUGS
