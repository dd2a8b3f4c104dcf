"""Every rule's page: its five headings, an example that breaks the rule, and one that does not."""

import json
import re
from pathlib import Path

import pytest

from matrixgen.boards.problems import PROBLEMS as BOARD_PAGES
from matrixgen.jobs.examine import examine
from matrixgen.jobs.problems import PROBLEMS as JOB_PAGES
from matrixgen.model import Problem
from matrixgen.rules import MOUNTED_RULES, OPEN_RULES, PROBLEMS, RULES

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
RESET_BUTTON = {"kind": "reset button", "source": "made up"}
FOUR_PINS = Path(__file__).parent / "four-pins.json"


def whole(kind: str, fragment: str) -> str:
    """The page's blocks, and for each block that it leaves out a plain one."""
    if kind:
        return fragment
    has_wiring = "wiring\n" in fragment
    plain = {
        "keyboard": 'keyboard "Pad"\n  controller atmega32u4\n',
        "plate": "plate\n  line A B\n" if has_wiring else "plate\n  line A B C\n",
        "wiring": WIRING,
    }
    missing = [text for block, text in plain.items() if not re.search(f"(?m)^{block}\\b", fragment)]
    return "\n".join([*missing, fragment])


def code_under(problem: Problem, heading: str) -> str:
    text = rf"## {heading}\n(?:(?!##|```)[^\n]*\n)*```keys( whole)?\n(.*?)```"
    found = re.search(text, problem.page, re.S)
    assert found, f"{problem.slug} has no code under {heading}"
    return whole(*found.groups())


def findings(problem: Problem, heading: str, folder: Path) -> dict[str, bool]:
    own = json.loads(FOUR_PINS.read_text(encoding="utf-8"))
    own["pins"] = [{"name": "P1", "use": "free"}, {"name": "P2", "use": "free"}]
    own["boot_loader_bytes"] = 0
    own["pins"].append({"name": "X", "use": "free", "output": False, "pull_up": False})
    (folder / "three-pins.json").write_text(json.dumps(own), encoding="utf-8")
    own |= {"boot_loader_bytes": 4096, "boot_loader_entry": RESET_BUTTON}
    (folder / "reset-button.json").write_text(json.dumps(own), encoding="utf-8")
    del own["boot_loader_entry"]
    own["boot_loader_bytes"] = 0
    own["pins"][2] = {"name": "WEAK", "use": "free", "sink_ampere": 0.0004}
    (folder / "weak-pin.json").write_text(json.dumps(own), encoding="utf-8")
    own["pins"][2] = {"name": "P3", "use": "free"}
    own |= {"supply_volts": 3.3, "clock_volts": 4.5}
    (folder / "fast-and-low.json").write_text(json.dumps(own), encoding="utf-8")
    path = folder / "page.keys"
    path.write_text(code_under(problem, heading), encoding="utf-8")
    return {found.slug: found.is_error for found in examine(str(path)).as_finished().findings}


OF_BOARDS = BOARD_PAGES.all()
WITH_CODE = [*PROBLEMS, BOARD_PAGES["unknown-controller"]]


@pytest.mark.parametrize(
    "problem", [*PROBLEMS, *OF_BOARDS, *JOB_PAGES.all()], ids=lambda problem: problem.slug
)
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
    rules = (*RULES, *MOUNTED_RULES, *OPEN_RULES)
    assert len(rules) == len(PROBLEMS) - 1  # what `allow` has to say comes after all rules
