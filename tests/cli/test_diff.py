"""`diff`: what is printed, to whom, and with which exit status; every kind of side."""

from __future__ import annotations

import pytest

from tests.amounts import IS_LONG
from tests.documents import report_of
from tests.examples.shipped import FOLDER, NAMES
from tests.texts import GOOD, edited

LAYERED = GOOD + "\nlayer base\n  A = hold layer more\n\nlayer more\n  B = Up\n"


def both(program, old: str, new: str, *words: str):
    return program("diff", program.write("a.keys", old), program.write("b.keys", new), *words)


def test_no_change(program):
    ran = both(program, GOOD, GOOD)
    assert (ran.status, ran.out, ran.err) == (0, "no change\n", "")


def test_a_key_on_a_layer_with_its_picture(program):
    ran = both(program, LAYERED, LAYERED.replace("B = Up", "B = Down"))
    assert (ran.status, ran.err) == (1, "")
    assert ran.out == (
        "reflash only: 1 key on layer more\n\nlayer more\n   .  [B]\n  B  Up -> Down\n"
    )


def test_what_is_left_to_the_layers_below(program):
    longer = LAYERED + "  A = F1\n"
    assert "A  F1 -> (below)" in both(program, longer, LAYERED).out
    assert "A  (below) -> F1" in both(program, LAYERED, longer).out


def test_solder_comes_first_and_what_is_cosmetic_last(program):
    new = LAYERED.replace("c1 on PB1", "c1 on PB2 wire red").replace("B = Up", "B = Down")
    out = both(program, LAYERED, new).out
    first = "solder: 1 wire on another pin; then reflash: 1 key on layer more"
    assert out.startswith(f"{first}\n\non the bench\n  1. move")
    assert out.index("on the bench") < out.index("\nlayer more") < out.index("cosmetic")


@pytest.mark.parametrize(
    ("only", "status", "first"),
    [
        ("solder", 0, "nothing to solder"),
        ("reflash", 1, "reflash only: 1 key on layer more"),
        ("cosmetic", 1, "cosmetic only: 1 colour"),
    ],
)
def test_only_is_a_gate(program, only, status, first):
    new = LAYERED.replace("c1 on PB1", "c1 on PB1 wire red").replace("B = Up", "B = Down")
    ran = both(program, LAYERED, new, "--only", only)
    assert ran.status == status
    assert ran.out.splitlines()[0] == first


@pytest.mark.few(5)
@pytest.mark.parametrize("one", NAMES)
def test_json_is_as_its_schema_says_for_any_two_files(program, one):
    """In the suite a file beside itself and another one; in the long run beside every other."""
    place = NAMES.index(one)
    for other in NAMES if IS_LONG else (one, NAMES[place - 1]):
        paths = [str(FOLDER / name / f"{name}.keys") for name in (one, other)]
        ran = program("diff", *paths, "--json")
        assert ran.status == (one != other)
        report = report_of(ran.out, "diff")
        assert (report["kind"] == "none") == (one == other)
        told = program("diff", *paths).out.splitlines()
        assert max(map(len, told[1:]), default=0) <= 80
        assert told[0] == report["headline"]


def test_two_keyboards_are_said_to_be_two(program):
    paths = [str(FOLDER / name / f"{name}.keys") for name in ("heron-12", "knot-21")]
    assert "key names: the others are shown as removed and added" in program("diff", *paths).out


def test_standard_input_is_one_side(program):
    name = program.write("a.keys", GOOD)
    assert program("diff", name, "-", stdin=GOOD.encode()).status == 0
    assert program("diff", "-", name, stdin=GOOD.replace("PB1", "PB2").encode()).status == 1
    ran = program("diff", "-", "-")
    assert (ran.status, ran.out) == (2, "")


@pytest.mark.parametrize(
    "make",
    [
        lambda folder: None,
        lambda folder: (folder / "b.keys").mkdir(),
        lambda folder: (folder / "b.keys").write_bytes(b"\xff\xfe\x00\x01"),
        lambda folder: (folder / "b.keys").write_text(GOOD.replace("A B", "A B B", 1)),
        lambda folder: (folder / "b.keys").write_text("line\n"),
    ],
    ids=["nothing there", "a directory", "a binary", "mistakes", "not a keyboard"],
)
def test_a_side_that_cannot_be_read_or_has_errors_is_told_and_leaves_with_2(program, make):
    name = program.write("a.keys", GOOD)
    make(program.folder)
    for words in ((name, "b.keys"), ("b.keys", name)):
        ran = program("diff", *words)
        assert (ran.status, ran.out) == (2, "")
        assert "error[" in ran.err


UNSOUND = {
    "an error of a rule": (("c1 on PB1", "c1 on PB0"), "`b.keys` has 1 error"),
    "a controller that nobody knows": (("atmega32u4", "atmega32u5"), "`b.keys` has 1 error"),
    "no pins yet": ((" on PB1", ""), "`b.keys` is not finished: no pin for `c1`"),
}


@pytest.mark.parametrize(("edit", "said"), UNSOUND.values(), ids=UNSOUND)
def test_a_side_that_reads_is_compared_and_its_findings_are_counted(program, edit, said):
    new = edited(LAYERED, [("B = Up", "B = Down"), edit])
    ran = both(program, LAYERED, new)
    assert (ran.status, ran.err) == (1, "")
    assert "reflash: 1 key on layer more" in ran.out or "reflash only: 1 key" in ran.out
    assert ran.out.endswith("\n") and ran.out.splitlines()[-1].startswith(said), ran.out
    report = report_of(both(program, LAYERED, new, "--json").out, "diff")
    assert report["findings"]["old"] == {"errors": 0, "warnings": 0, "missing": []}
    counted = report["findings"]["new"]
    assert counted["errors"] + len(counted["missing"]) == 1
    assert both(program, new, new).out.startswith("no change\n\n`a.keys` ")


def test_of_two_sides_only_the_one_that_does_not_read_is_told_of(program):
    ran = both(program, LAYERED.replace("c1 on PB1", "c1 on PB0"), "plat\n")
    assert (ran.status, ran.out) == (2, "")
    assert "b.keys:1:1: error[" in ran.err and "a.keys" not in ran.err


def test_colour_is_for_a_terminal(program, monkeypatch):
    new = LAYERED.replace("B = Up", "B = Down")
    assert "\x1b" not in both(program, LAYERED, new).out
    monkeypatch.setattr("matrixgen.cli.diff.wants_colour", lambda stream: True)
    out = both(program, LAYERED, new).out
    assert "\x1b[1;33mreflash only" in out and "\x1b[1;33m[B]\x1b[0m" in out


def test_a_side_may_be_a_revision(program, repository):
    program.write("pad.keys", LAYERED)
    repository.commit()
    program.write("pad.keys", LAYERED.replace("B = Up", "B = Down"))
    ran = program("diff", "HEAD:pad.keys", "pad.keys")
    assert ran.status == 1
    assert ran.out.startswith("reflash only: 1 key on layer more\n")
    assert program("diff", "HEAD:pad.keys", "HEAD:pad.keys").status == 0


@pytest.mark.parametrize("side", ["HEAD:none.keys", "no-such:pad.keys"])
def test_a_revision_that_is_not_there_is_told(program, repository, side):
    program.write("pad.keys", LAYERED)
    repository.commit()
    ran = program("diff", side, "pad.keys")
    assert (ran.status, ran.out) == (2, "")
    assert "matrixgen: there is no " in ran.err


def test_outside_of_a_repository_a_revision_is_refused(program):
    ran = program("diff", "HEAD:pad.keys", program.write("pad.keys", GOOD))
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith("matrixgen: ")
