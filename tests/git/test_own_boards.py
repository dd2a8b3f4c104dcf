"""A keyboard's own profile and diode in git: those of the same revision are compared as well."""

from __future__ import annotations

import json

import pytest

from matrixgen.resources import resource
from tests.boards.own_files import good
from tests.merge.test_cases import BASE

TEXT = BASE.replace("controller atmega32u4", 'controller "parts/board.json"')
DIODE = TEXT.replace("1N4148", '"parts/diode.json"')


def profile(**fields: object) -> str:
    return json.dumps(good() | {"name": "mine", **fields}, indent=2)


def diode(**fields: object) -> str:
    document = json.loads((resource("boards") / "diodes.json").read_text("utf-8"))
    (one,) = [one for one in document["diodes"] if one["name"] == "1N4148"]
    return json.dumps(document | {"diodes": [one | {"name": "mine"} | fields]}, indent=2)


@pytest.fixture
def pad(repository, program):
    """A keyboard with its own board in a folder; of two revisions the later has another clock."""
    assert "parts/board.json" in TEXT
    for text, clock in ((TEXT, 16_000_000), (TEXT.replace("5 ms", "6 ms"), 8_000_000)):
        repository.write("pads/pad.keys", text)
        repository.save("pads/parts/board.json", profile(clock_hz=clock))
    assert program("git-setup").status == 0
    return repository


CLOCK = "8000000 as `clock_hz`, and had 16000000"


@pytest.mark.parametrize("words", ["diff HEAD~1", "diff HEAD~1 HEAD", "show --ext-diff"])
def test_git_compares_keyboards_with_their_own_boards(pad, words):
    shown = pad(*words.split())
    assert "reflash only: 1 debounce time, 1 field of a profile" in shown
    assert CLOCK in " ".join(shown.split())


def test_what_is_not_committed_is_compared_with_what_is(pad):
    pad.write("pads/pad.keys", TEXT.replace("5 ms", "7 ms"))
    assert "reflash only: 1 debounce time\n" in pad("diff")
    pad.write("pads/parts/board.json", profile(clock_hz=16_000_000))
    assert "16000000 as `clock_hz`, and had 8000000" in " ".join(pad("diff").split())
    pad("add", "-A")
    assert "1 field of a profile" in pad("diff", "--cached")


def test_a_change_of_the_profile_alone_is_told(pad, program, monkeypatch):
    pad.write("pads/parts/board.json", profile(clock_hz=16_000_000))
    for there, words in ((".", "pads/pad.keys"), ("pads", "pad.keys"), ("pads", "./pad.keys")):
        monkeypatch.chdir(pad.folder / there)
        ran = program("diff", f"HEAD:{words}", words)
        assert ran.out.startswith("reflash only: 1 field of a profile\n"), (there, words)
    assert program("diff", "HEAD~1:pads/pad.keys", "HEAD:pads/pad.keys").status == 1


def test_a_board_that_the_revision_does_not_have_is_taken_from_the_work_tree(pad, program):
    (pad.folder / "pads/parts/board.json").unlink()
    pad.commit("Its board is kept elsewhere")
    pad.write("pads/parts/board.json", profile())
    ran = program("diff", "HEAD:pads/pad.keys", "pads/pad.keys")
    assert (ran.out, ran.err) == ("no change\n", "")


def test_a_label_on_another_pin_is_iron_work(pad, program):
    document = json.loads(profile(clock_hz=8_000_000))
    pins = {pin["name"]: pin for pin in document["pins"]}
    pins["PB0"]["label"], pins["PB4"]["label"] = "one", "other"
    text = TEXT.replace("on PB0", "on one")
    for one, other in (("one", "other"), ("other", "one")):
        pins["PB0"]["label"], pins["PB4"]["label"] = one, other
        pad.write("pads/pad.keys", text)
        pad.save("pads/parts/board.json", json.dumps(document))
    ran = program("diff", "HEAD~1:pads/pad.keys", "HEAD:pads/pad.keys", "--json")
    told = json.loads(ran.out)
    assert told["headline"].startswith("solder: 1 pin") and told["needs_image"]


def test_a_diode_of_its_own_is_of_the_same_revision(pad, program):
    pad.write("pads/pad.keys", DIODE)
    pad.save("pads/parts/diode.json", diode())
    pad.write("pads/parts/diode.json", diode(zero_bias_farad=3e-12))
    told = json.loads(program("diff", "HEAD:pads/pad.keys", "pads/pad.keys", "--json").out)
    assert "diode-known" in {change["slug"] for change in told["changes"]}


def test_git_s_pager_gets_colour_where_git_would_give_it(pad, monkeypatch):
    words = ("diff", "HEAD~1", "--", "pads/pad.keys")
    painted = "\x1b[1;33mreflash only"
    assert "\x1b" not in pad(*words)
    assert painted in pad("-c", "color.ui=always", *words)
    monkeypatch.setenv("GIT_PAGER_IN_USE", "1")
    monkeypatch.setenv("TERM", "xterm")
    assert painted in pad(*words)
    assert "\x1b" not in pad("-c", "color.diff=never", *words)
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b" not in pad(*words)


def told(program, *words: str) -> list[tuple[str, str]]:
    revisions = json.loads(program("history", *words, "--json").out)["revisions"]
    return [(one["subject"], one["work"]) for one in revisions]


def test_history_tells_of_a_board_that_changed_alone(pad, program, monkeypatch):
    for subject, clock in (("Slower", 8_000_000), ("Faster", 16_000_000)):
        pad.save("pads/parts/board.json", profile(clock_hz=clock, title=subject), subject)
    pad.save("other.txt", "nothing of it", "Another file")
    pad.save(
        "pads/parts/board.json", profile(title="Faster", clock_hz=16_000_000) + "\n", "A line end"
    )
    pad.save("pads/pad.keys", TEXT.replace("on PB0", "on PD7"), "Rewired")
    work = [
        ("Rewired", "solder"),
        ("Faster", "reflash"),
        ("Slower", "cosmetic"),
        ("A change", "reflash"),
        ("A change", "new"),
    ]
    assert told(program, "pads/pad.keys") == work
    assert told(program, "pads/pad.keys", "--since=HEAD~4") == work[:2]
    assert told(program, "pads/pad.keys", "--only=reflash") == work[1:2] + work[3:4]
    monkeypatch.chdir(pad.folder / "pads")
    assert told(program, "pad.keys") == work


def test_history_goes_over_a_board_of_a_revision_that_does_not_read(pad, program):
    pad.save("pads/pad.keys", "plat\n", "Oops")
    pad.save("pads/parts/board.json", profile(clock_hz=16_000_000), "Faster")
    pad.save("pads/pad.keys", TEXT.replace("5 ms", "6 ms"), "Mended")
    assert told(program, "pads/pad.keys")[:2] == [("Mended", "reflash"), ("Oops", "unreadable")]
