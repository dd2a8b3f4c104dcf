"""Every rule's page: its five headings, an example that breaks the rule, and one that does not."""

import json
import re
from pathlib import Path

import pytest

from matrixgen.boards.problems import PROBLEMS as OF_BOARDS
from matrixgen.boards.problems import unknown_controller
from matrixgen.jobs.examine import examine
from matrixgen.model import Problem
from matrixgen.rules import PROBLEMS, RULES

HEADINGS = ["What it does", "Why it matters", "Example", "Do instead", "Reference"]
WIRING = """
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B C
  column c0 on PB4  A
  column c1 on PB5  B
  column c2 on PB6  C
"""
FOUR_PINS = Path(__file__).parent / "four-pins.json"


def whole(fragment: str) -> str:
    """The page's blocks, and for each block that it leaves out a plain one."""
    has_wiring = "wiring\n" in fragment
    plain = {
        "keyboard": 'keyboard "Pad"\n  controller atmega32u4\n',
        "plate": "plate\n  line A B\n" if has_wiring else "plate\n  line A B C\n",
        "wiring": WIRING,
    }
    missing = [text for block, text in plain.items() if not re.search(f"(?m)^{block}\\b", fragment)]
    return "\n".join([*missing, fragment])


def code_under(problem: Problem, heading: str) -> str:
    found = re.search(rf"## {heading}\n(?:(?!##|```).*\n)*```keys\n(.*?)```", problem.page, re.S)
    assert found, f"{problem.slug} has no code under {heading}"
    return found[1]


def findings(problem: Problem, heading: str, folder: Path) -> dict[str, bool]:
    own = json.loads(FOUR_PINS.read_text(encoding="utf-8"))
    own["pins"] = [{"name": "P1", "use": "free"}, {"name": "P2", "use": "free"}]
    own["boot_loader_bytes"] = 0
    own["pins"].append({"name": "X", "use": "free", "output": False, "pull_up": False})
    (folder / "three-pins.json").write_text(json.dumps(own), encoding="utf-8")
    path = folder / "page.keys"
    path.write_text(whole(code_under(problem, heading)), encoding="utf-8")
    return {found.slug: found.is_error for found in examine(str(path)).findings}


WITH_CODE = [*PROBLEMS, unknown_controller.PROBLEM]


@pytest.mark.parametrize("problem", [*PROBLEMS, *OF_BOARDS], ids=lambda problem: problem.slug)
def test_a_page_has_a_title_and_the_five_headings(problem):
    assert re.findall(r"(?m)^## (.*)$", problem.page) == HEADINGS
    title = problem.title
    assert title and title[0].islower() and not title.endswith(".")


@pytest.mark.parametrize("problem", WITH_CODE, ids=lambda problem: problem.slug)
def test_the_example_of_a_page_breaks_its_rule(problem, tmp_path):
    assert problem.slug in findings(problem, "Example", tmp_path)


@pytest.mark.parametrize("problem", WITH_CODE, ids=lambda problem: problem.slug)
def test_what_a_page_says_to_do_instead_is_without_error(problem, tmp_path):
    found = findings(problem, "Do instead", tmp_path)
    assert problem.slug not in found
    assert not any(found.values()), found


def test_the_registry_holds_every_file_of_a_rule():
    folder = Path(__file__).parents[2] / "matrixgen" / "rules"
    with_page = {f.stem for f in folder.glob("*/*.py") if "\nPROBLEM = " in f.read_text("utf-8")}
    assert {problem.slug.replace("-", "_") for problem in PROBLEMS} == with_page
    assert len(RULES) == len(PROBLEMS) - 1  # what `allow` has to say comes after all rules
