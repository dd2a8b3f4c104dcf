"""`diff --since REV FILE`: what is to be done since a tag, whatever the file was called then."""

from __future__ import annotations

import json

import pytest

from tests.git.test_own_boards import TEXT as OWN
from tests.git.test_own_boards import profile
from tests.merge.test_cases import BASE, edited

PIN, CELL = ("on PB0", "on PD7"), ("K2 = copy", "K2 = Tab")


@pytest.fixture
def pad(repository):
    """A pad, soldered, then rewired, renamed into a folder, and retyped."""
    repository.save("old.keys", BASE)
    repository("tag", "soldered")
    repository.save("old.keys", edited(PIN))
    repository.write("below/pad.keys", edited(PIN))
    (repository.folder / "old.keys").unlink()
    repository.commit()
    repository.write("below/pad.keys", edited(PIN, CELL))
    return repository


@pytest.mark.parametrize("since", ["soldered", "HEAD~2", "2024-01-03"])
def test_what_is_to_be_done_since_a_revision_or_a_day(pad, program, since):
    ran = program("diff", "--since", since, "below/pad.keys")
    assert (ran.status, ran.err) == (1, "")
    assert ran.out.startswith("solder: 1 wire on another pin; then reflash: 1 key on layer base\n")
    ran = program("diff", "--since", since, "below/pad.keys", "--json")
    told = json.loads(ran.out)
    assert (told["old"], told["new"]) == (f"{since}:old.keys", "below/pad.keys")


def test_from_the_file_s_own_folder_and_from_outside(pad, program, monkeypatch):
    for there, name in (("below", "pad.keys"), ("..", f"{pad.folder.name}/below/pad.keys")):
        monkeypatch.chdir(pad.folder / there)
        ran = program("diff", "--since", "soldered", name, "--only", "solder")
        assert ran.out.startswith("solder: 1 wire on another pin; then reflash\n"), (there, ran.err)
    monkeypatch.chdir(pad.folder)
    assert program("diff", "--since=HEAD", "below/pad.keys", "--only=solder").status == 0


def test_its_board_is_that_of_then(pad, program):
    for clock in (16_000_000, 8_000_000):
        pad.write("below/pad.keys", OWN)
        pad.save("below/parts/board.json", profile(clock_hz=clock))
    out = program("diff", "--since", "HEAD~1", "below/pad.keys").out
    assert out.startswith("reflash only: 1 field of a profile\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--since", "solderd", "below/pad.keys"), "`soldered` has a similar name"),
        (("--since", "--output=x", "below/pad.keys"), "expected one argument"),
        (("--since=--output=x", "below/pad.keys"), "there is no revision `--output=x`"),
        (("--since", "2023-01-01", "below/pad.keys"), "there is no revision `2023-01-01`"),
        (("--since", "soldered", "gone.keys"), "there is no `gone.keys` in `soldered`"),
        (("--since", "soldered", "below/pad.keys", "x.keys"), "--since takes one file"),
        (("below/pad.keys",), "one file is compared with nothing"),
        (("--since", "soldered", "-"), "there is no `-` in `soldered`"),
    ],
)
def test_what_cannot_be_compared_is_said(pad, program, words, said):
    ran = program("diff", *words)
    assert (ran.status, ran.out) == (2, "")
    assert said in ran.err
    assert not (pad.folder / "x").exists()
