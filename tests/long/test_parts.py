"""The long run tells of each part how it ended, and what the part says of itself."""

from __future__ import annotations

import importlib.util
import re

import pytest

from tests.browser.browsers import START, asked_for
from tests.long.__main__ import main, run
from tests.long.parts import PARTS, PYTHON, Part


@pytest.mark.parametrize("name", PARTS)
def test_a_part_is_a_module_that_is_there(name: str) -> None:
    python, flag, module, *_ = PARTS[name].command
    assert (python, flag) == (PYTHON, "-m")
    assert importlib.util.find_spec(module) is not None


def test_the_parts_run_every_browser() -> None:
    asked = {name for part in PARTS.values() for name in asked_for(part.settings)}
    assert asked == START.keys()


@pytest.mark.parametrize(("status", "said"), [(0, "passed"), (3, "FAILED with 3")])
def test_a_part_that_has_run_has_its_lines_in_the_summary(status: int, said: str) -> None:
    program = f"import os; print('much'); print(os.environ['KIND'], '9 runs'); exit({status})"
    part = Part("x", "a try", (PYTHON, "-c", program), re.compile("runs$"), {"KIND": "long"})
    ended = run(part)
    head, *lines = ended.summary
    assert re.fullmatch(rf"x +\d+\.\d min   {said}", head)
    assert (ended.status, lines) == (status, ["    long 9 runs"])


def test_a_part_that_does_not_exist_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["suit"]) == 2
    assert "no part is called suit" in capsys.readouterr().out
