"""Files that say, on the line, what is to be found and where; one folder a subject."""

from pathlib import Path

import pytest

from matrixgen.source import read_design
from tests.rules.marks import actual, expected

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*/*.keys"))


def name_of(path):
    return f"{path.parent.name}/{path.stem}"


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_a_file_has_the_findings_that_it_marks_and_no_others(path):
    text = path.read_text(encoding="utf-8")
    design, found = read_design(path)
    assert actual(text, found) == expected(text), found
    assert (design is None) == any(one.is_error for one in found)


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_a_broken_file_is_broken_and_a_fine_one_is_not(path):
    assert path.stem.startswith("broken-") == bool(expected(path.read_text(encoding="utf-8")))


def test_there_are_at_least_sixty_broken_files():
    assert sum(path.stem.startswith("broken-") for path in FILES) >= 60
