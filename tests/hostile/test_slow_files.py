"""No file within the limits of the language takes long to check.

Each shape tries to be slow, at the limits. What a check of it takes is compared with a reference
that is measured in the same run, so it does not matter how fast the computer is, nor how busy.
"""

from __future__ import annotations

import contextlib
import io
import time
from pathlib import Path

import pytest

from matrixgen.cli.check import for_people
from matrixgen.jobs.examine import examine_text
from matrixgen.source.limits import LIMITS
from matrixgen.source.load import words_of
from tests.amounts import IS_LONG
from tests.hostile.conftest import no_hang
from tests.hostile.slow_files import SHAPES

MOST_TIMES = 40
"""How many times as long as the reference a check may take: the slowest takes some 15 times."""

SIZE = 1 if IS_LONG else 0.25
"""To which share of the limits the shapes go."""

LEAST_SECONDS = 0.05
"""A reference that is shorter than that is not measured well."""

PATIENT = 3
"""The reference takes as long as its quickest run of so many."""


def cpu_seconds(text: str) -> float:
    begin = time.process_time()
    with contextlib.redirect_stdout(io.StringIO()):
        print(for_people([examine_text("pad.keys", text, Path())]))
    return time.process_time() - begin


@pytest.fixture(scope="module")
def reference() -> float:
    """What a sound keyboard of 1,024 keys takes."""
    return min(cpu_seconds(SHAPES["a diode at each key"](SIZE)) for _ in range(PATIENT))


@pytest.mark.few(12)
@pytest.mark.parametrize("name", SHAPES)
def test_no_file_takes_many_times_as_long_as_a_sound_one_of_all_keys(name, reference):
    text = SHAPES[name](SIZE)
    assert len(text.encode()) <= LIMITS.file_bytes
    with no_hang():
        assert cpu_seconds(text) < MOST_TIMES * max(reference, LEAST_SECONDS)


def findings_of(text: str) -> list[str]:
    return [found.message for found in examine_text("pad.keys", text, Path()).findings]


def test_a_file_with_more_findings_than_anybody_reads_is_read_no_further():
    text = "plate\n  line A\n\nwiring\n  row r0" + " q" * 3 * LIMITS.findings
    found = findings_of(text)
    assert len(found) == LIMITS.findings + 1
    assert sum("what follows is not read" in one for one in found) == 1


def test_names_are_suggested_for_the_first_misspelt_ones_alone():
    names = [f"Key{letter}{other}" for letter in "ABCDEFGHIJ" for other in "ABCDEFGHIJ"]
    wrong = " ".join(f"{name}x" for name in names)
    text = f"plate\n  line {' '.join(names)}\n\nwiring\n  without diode {wrong}\n"
    found = examine_text("pad.keys", text, Path()).findings
    unknown = [one for one in found if one.slug == "unknown-key"]
    assert len(unknown) == len(names)
    assert sum(bool(one.helps) for one in unknown) == LIMITS.similar_names


def test_words_have_a_limit():
    text = "plate\n  line A\n#" + " a" * LIMITS.words
    [found] = findings_of(text)
    assert found == "`pad.keys` has more than 120,000 words and signs"
    assert words_of("A = B  C = Ctrl+X, D") == 9


def test_runs_have_a_limit_together():
    keys = " ".join(f"k{n}" for n in range(LIMITS.keys))
    run = f"k0 to k{LIMITS.keys - 1}"
    few = f"plate\n  line {keys}\n\nwiring\n  row r0 {run}"
    assert not any("all runs" in one for one in findings_of(few))
    many = f"plate\n  line {keys}\n\nwiring\n  reversed {' '.join([run] * 40)}\n"
    found = [one for one in findings_of(many) if "all runs" in one]
    assert found == ["all runs together have more than 40,000 keys"]


def test_allow_and_controllers_have_a_limit():
    allow = "  allow unreachable-layer\n" * (LIMITS.allowances + 1)
    [found] = findings_of(f'keyboard "Pad"\n{allow}\nplate\n  line A\n')
    assert found == "this is `allow` number 501; a file has at most 500"
    boards = ", ".join(["rp2040"] * (LIMITS.controllers + 1))
    [found] = findings_of(f'keyboard "Pad"\n  controller {boards}\n\nplate\n  line A\n')
    assert found == "this is controller number 9; a file has at most 8"


def test_ghosts_that_are_too_many_to_try_are_said_to_be():
    found = examine_text("pad.keys", SHAPES["crossings of chance without diodes"](1), Path())
    ghosts = [one for one in found.findings if "ghost" in one.slug]
    assert ghosts
    helps = [help for one in ghosts for help in one.helps]
    assert any("each of these 768 keys a diode" in help for help in helps)


def test_routes_that_are_not_looked_for_are_said_to_be():
    found = examine_text("pad.keys", SHAPES["long wires round obstacles"](1), Path()).findings
    [left_out] = [one for one in found if "may have no route" in one.message]
    assert left_out.slug == "wire-without-route" and not left_out.is_error
