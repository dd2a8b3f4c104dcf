"""What `matrixgen check` says of mistakes that are easily made, word for word.

Each .keys file has beside it what is printed of it. `python -m pytest tests/messages --refresh`
writes those texts anew, for a person to read in the diff.
"""

from pathlib import Path

import pytest

from matrixgen.cli.check import for_people
from matrixgen.jobs.examine import examine_text
from matrixgen.source import read_design

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*.keys"))


def said_of(path):
    text = path.read_bytes().decode("utf-8")
    return for_people([examine_text(path.name, text, HERE)]) + "\n"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_mistake_is_told_in_these_words(path, request):
    expected = path.with_suffix(".txt")
    if request.config.getoption("--refresh"):
        expected.write_text(said_of(path), encoding="utf-8")
    assert said_of(path) == expected.read_text(encoding="utf-8")


def test_every_text_belongs_to_a_file():
    assert {path.stem for path in HERE.glob("*.txt")} == {path.stem for path in FILES}


def test_a_message_follows_the_house_rule():
    for path in FILES:
        _, found = read_design(path.name, path.read_bytes().decode("utf-8"))
        for one in found:
            assert one.message[-1] != "." and not one.message[0].isupper(), one.message
            assert all(help[-1] != "." and "did you mean" not in help for help in one.helps)
