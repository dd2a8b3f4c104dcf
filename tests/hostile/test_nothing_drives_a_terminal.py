"""Text from outside is shown, and never obeyed: a terminal gets no control character of it."""

from __future__ import annotations

import json
import unicodedata

import pytest

from matrixgen.cli import load
from matrixgen.cli.fit_to_print import clean, width
from matrixgen.cli.printer import carets
from matrixgen.load.drives import Drive
from matrixgen.model import Span
from tests.boards.own_files import good
from tests.repository import Repository
from tests.texts import GOOD

ORDERS = "\x1b[2J\x07\x9b\u202e\u2066\u200f\x7f\r"
"""Clears a screen, rings, turns what follows around, and goes back over its line."""

SHOWN = r"\x1b[2J\x07\x9b\u202e\u2066\u200f\x7f\x0d"
NEW_LINE = "\n::error::obeyed"
"""What some machines that run checks take for an order, at the beginning of a line."""


def assert_fit(text: str) -> None:
    """Nothing but line ends drives a terminal."""
    bad = {one for one in text if unicodedata.category(one) in ("Cc", "Cf", "Cs", "Zl", "Zp")}
    assert bad <= {"\n"}, sorted(map(ascii, bad))
    assert not any(line.startswith("::") for line in text.splitlines())


def own_board(stranger, **fields: object) -> str:
    stranger.write("own.json", json.dumps(good() | fields))
    return "own.json"


def on_own_board(stranger) -> str:
    text = GOOD.replace("atmega32u4", '"own.json"').replace("PD0", "PD1")
    return stranger.write("pad.keys", text)


def hostile_profile() -> dict[str, object]:
    """A profile whose every text that is free has orders in it."""
    document = good()
    text = f"x{ORDERS}{NEW_LINE}"
    document["title"] = text
    document["datasheet"] = dict.fromkeys(("title", "document", "section"), text)
    document["sources"] = dict.fromkeys(document["sources"], text)
    for pin in document["pins"]:
        pin.update({name: text for name in ("duty", "advice") if name in pin})
    for part in document.get("around", []):
        part.update(dict.fromkeys(("part", "where", "why", "source"), text))
    return document


def test_the_one_place_shows_them():
    assert clean(f"a{ORDERS}b\t|") == f"a{SHOWN}b    |"
    assert clean("\udc9b") == r"\x9b" and clean("\U000e0041") == r"\U000e0041"
    assert width(f"a{ORDERS}b") == len(f"a{SHOWN}b")
    assert carets(f"{ORDERS}b", Span.in_line("f", 1, len(ORDERS) + 1, 1)) == " " * len(SHOWN) + "^"


@pytest.mark.parametrize(
    "words",
    [
        ("boards", "own.json"),
        ("boards", "own.json", "--json"),
        ("check", "pad.keys"),
        ("check", "pad.keys", "--json"),
        ("check", "pad.keys", "--sarif"),
        ("figures", "pad.keys"),
        ("explain", "--figures", "pad.keys"),
        ("sheet", "pad.keys"),
        ("fit", "pad.keys"),
        ("show", "pad.keys"),
    ],
)
def test_no_command_prints_a_profile_s_orders(stranger, words):
    on_own_board(stranger)
    own_board(stranger, **hostile_profile())
    ran = stranger(*words)
    assert ran.status in (0, 1, 2)
    assert_fit(ran.out + ran.err)
    if words == ("boards", "own.json"):
        assert ran.status == 0
        assert f"x{SHOWN}" in ran.out


@pytest.mark.parametrize("words", [("boards", "own.json"), ("check", "pad.keys")])
def test_nor_a_field_s_name(stranger, words):
    on_own_board(stranger)
    own_board(stranger, **{f"x{ORDERS}{NEW_LINE}": 1})
    ran = stranger(*words)
    assert_fit(ran.out + ran.err)
    assert r"has no field `x\x1b[2J" in ran.out + ran.err


COMMANDS = [
    ("check",),
    ("check", "--allowed"),
    ("check", "--fix"),
    ("fmt",),
    ("fmt", "--check"),
    ("fmt", "--diff"),
    ("facts",),
    ("figures",),
    ("fit",),
    ("fit", "--rows", "1"),
    ("show",),
    ("sheet",),
    ("build",),
    ("new",),
    ("boards",),
    ("load",),
    ("rehearse",),
    ("history",),
    ("explain",),
]


@pytest.mark.few(60)
@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
@pytest.mark.parametrize("text", [GOOD, "keyboard", None], ids=["sound", "broken", "none"])
@pytest.mark.parametrize("name", [f"pad{ORDERS}", f"pad{NEW_LINE}"], ids=["orders", "lines"])
def test_no_command_prints_a_file_s_name_raw(stranger, command, text, name):
    if text is not None:
        stranger.write(f"{name}.keys", text)
        stranger.write("other.keys", GOOD)
    ran = stranger(command[0], f"{name}.keys", *command[1:])
    assert_fit(ran.out + ran.err)
    if command == ("check",):
        ran = stranger("diff", f"{name}.keys", "other.keys")
        assert_fit(ran.out + ran.err)


def test_nor_do_several_files_at_once(stranger):
    names = [stranger.write(f"{number}{ORDERS}{NEW_LINE}.keys", GOOD) for number in range(2)]
    for text in (GOOD, "keyboard\n", 'keyboard "x"\n'):
        stranger.write(names[1], text)
        ran = stranger("check", "--allowed", "--coverage", *names)
        assert_fit(ran.out + ran.err)


def test_a_similar_name_in_a_revision_is_shown(stranger, git_environment, monkeypatch):
    (stranger.folder / ".git" / "config").unlink()
    stranger.write(f"pad{ORDERS}.keys", GOOD)
    Repository(stranger.folder, monkeypatch).commit()
    for path in ("pad.keys", "pads.keys", f"HEAD{ORDERS}"):
        ran = stranger("diff", f"HEAD:{path}", f"HEAD:pad{ORDERS}.keys")
        assert_fit(ran.out + ran.err)
    assert r"pad\x1b[2J" in stranger("diff", "HEAD:pad.keys", "HEAD:pad.keys").err


def test_the_list_of_boards_to_load_shows_what_a_drive_says_of_itself(stranger, monkeypatch):
    drive = Drive(f"/media/{ORDERS}{NEW_LINE}", f"Board{ORDERS}", f"x{ORDERS}")
    monkeypatch.setattr(load, "drives", lambda: (drive,))
    ran = stranger("load", "--list")
    assert_fit(ran.out)
    assert rf"Board{SHOWN}" in ran.out
