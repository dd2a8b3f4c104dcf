"""Twenty faults, and what is printed for each of them, word for word: `verdicts.txt`.

`pytest tests/probe --refresh` writes the page again; read it aloud when it changes.
"""

from pathlib import Path

import pytest

from matrixgen.bench.serial.self_report import Answers
from matrixgen.bench.verdicts.verdict import verdict_of
from matrixgen.cli.probe_text import verdict_lines
from matrixgen.jobs.examine import examine
from matrixgen.jobs.probe import Probed
from tests.examples.shipped import FOLDER
from tests.probe.boards import named, seen_with, slips, suspects_of

NAME = "heron-12"
PAGE = Path(__file__).with_name("verdicts.txt")

FAULTS = (
    "joint 7 left",
    "hop left 7 4",
    "lead left",
    "diode turned 5",
    "diode shorted 5",
    "switch stuck 9",
    "switch dead 8",
    "leg elsewhere 5 centre left",
    "leg elsewhere 5 middle top",
    "piece touches left 7 4 centre",
    "lead on taken pin left centre",
    "leads exchanged left right",
    "lead on spare pin top PB7",
    "leads on one pin middle top PB7",
    "wires touch centre left",
    "pads bridged PB4 PB5",
    "on ground top",
    "middle touches 5 left",
    "middles touch 7 5",
    "keys exchanged 7 5",
    "leg elsewhere 5 centre left; diode turned 1",
    "leg elsewhere 5 centre left; diode turned 1; joint 9 top; lead low",
)
"""Slips of the second model, by their kinds and places."""


def slips_called(text):
    """The slips of a line of `FAULTS`, each the first that is called so."""
    return [next(one for one in slips(NAME) if named([one]) == part) for part in text.split("; ")]


def probed(seen):
    examined, suspects = examine(str(FOLDER / NAME / f"{NAME}.keys")), suspects_of(NAME)
    return Probed(
        design=examined.design,
        profile=examined.mounted[0].profile,
        place=0,
        board=suspects.board,
        seen=seen,
        verdict=verdict_of(suspects, seen),
        answers=Answers(chip=examined.mounted[0].profile.chip, facts={}, rises={}),
    )


def printed(text):
    """What is printed for some slips, below a line that names them."""
    lines = verdict_lines(probed(seen_with(NAME, slips_called(text))))
    return f"== {text}\n" + "".join(f"{line}\n" for line in lines)


def test_what_is_printed_is_what_the_page_has(request):
    page = "\n".join([printed(text) for text in FAULTS])
    if request.config.getoption("--refresh"):
        PAGE.write_text(page, encoding="utf-8")
    assert page == PAGE.read_text(encoding="utf-8")


@pytest.mark.parametrize("text", FAULTS)
def test_every_verdict_begins_with_unplugging(text):
    page = PAGE.read_text(encoding="utf-8")
    [after] = [part for part in page.split("== ") if part.startswith(f"{text}\n")]
    assert after.splitlines()[1].startswith("unplug")
