"""What Tab completes, in real shells, and the candidates behind it."""

from __future__ import annotations

import argparse
import importlib
import os
import sys
from pathlib import Path

import pytest

from matrixgen.cli.candidates import FILES, NAMES, candidates
from matrixgen.cli.commands import COMMANDS
from matrixgen.cli.completion import SHELLS
from matrixgen.jobs.catalogue import catalogue
from matrixgen.jobs.examine import examine
from matrixgen.jobs.sheet import NOT_ASKED, pictures, sheet_of_examined
from tests.amounts import IS_LONG
from tests.terminal import Terminal
from tests.texts import GOOD

LAYERS = f"{GOOD}\nlayer base\n  A = hold layer nav\n\nlayer nav\n  B = C\n"

WITHOUT_NAMES = ("N", "MM", "WxH", "COLUMNS", "WORD", "SYSTEM", "NAME")
"""What arguments are called of whose values nothing is known before they are typed."""


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for name in ("pad.keys", "heron 12.keys", "notes.txt", ".hidden.keys", "deep/low.keys"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(LAYERS, "utf-8")
    (tmp_path / ".wrong.keys").write_text(GOOD.replace("PB1", "PB0"), "utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["chec"], ["check"]),
        (["check", ""], ["heron 12.keys", "pad.keys", "deep/"]),
        (["check", "pad.keys", "d"], ["deep/"]),
        (["check", "deep/"], ["deep/low.keys"]),
        (["check", "no"], ["notes.txt"]),
        (["check", "nowhere/"], []),
        (["check", "--fi"], ["--finished", "--fix", "--fix-also"]),
        (["check", "--cure", "unknown-us"], ["unknown-usage"]),
        (["explain", "pin-used"], ["pin-used-twice"]),
        (["explain", "pin-used-twice", ""], []),
        (["show", "pad.keys", "--layer", ""], ["base", "nav"]),
        (["show", "--layer", "n"], []),
        (["build", "pad.keys", "--controller", ""], ["atmega32u4"]),
        (["build", "--compiler", ""], ["gcc", "clang"]),
        (["boards", "stick-32u4-"], ["stick-32u4-3v3"]),
        (["layouts", "gr"], ["gr"]),
        (["layouts", "--on", ""], ["linux", "windows", "macos"]),
        (["history", "--since", "ma"], []),
        (["check", ".wrong.keys", "--fix-also", ""], ["pin-used-twice"]),
        (["sheet", "pad.keys", "--port", ""], []),
        (["help", "kno"], ["knobs"]),
        (["completion", ""], list(SHELLS)),
        (["chekc", ""], []),
    ],
    ids=" ".join,
)
def test_a_word_may_become(folder, words, found):
    assert candidates(words) == found


@pytest.mark.parametrize("text", [LAYERS, GOOD, LAYERS.replace("  controller atmega32u4\n", "")])
def test_the_drawings_that_are_offered_are_those_that_a_file_has(folder, text):
    (folder / "pad.keys").write_text(text, "utf-8")
    examined = examine("pad.keys")
    assert examined.design
    board = examined.mounted[0] if examined.mounted else None
    sheet = sheet_of_examined(examined, examined.design, board, waits=NOT_ASKED)
    drawn = [name.removesuffix(".svg") for name in pictures(sheet)]
    assert candidates(["sheet", "pad.keys", "--drawing", ""]) == drawn


def test_branches_and_tags_of_the_repository_are_offered(repository):
    repository.commit()
    repository("tag", "soldered")
    assert candidates(["history", "pad.keys", "--since", "sol"]) == ["soldered"]
    assert candidates(["diff", "--since", "m"]) == ["main"]


def test_every_command_and_every_option_that_its_help_shows_is_one(folder):
    assert set(COMMANDS) < set(candidates([""]))
    assert candidates(["explain", ""]) == list(catalogue())
    for name in COMMANDS:
        parser = argparse.ArgumentParser()
        importlib.import_module(f"matrixgen.cli.{name.replace('-', '_')}").add_arguments(parser)
        options = candidates([name, "--"])
        for action in parser._actions:
            if action.help != argparse.SUPPRESS:
                assert {one for one in action.option_strings if one[:2] == "--"} <= set(options)


def test_of_every_argument_it_is_known_what_completes_it():
    """A new one is a file, has choices, is in the table of names, or nothing is known of it."""
    for name in COMMANDS:
        parser = argparse.ArgumentParser()
        importlib.import_module(f"matrixgen.cli.{name.replace('-', '_')}").add_arguments(parser)
        for one in parser._actions:
            if one.help == argparse.SUPPRESS:
                continue
            called = str(one.metavar or "").replace(".", "|").split("|")
            is_known = one.nargs == 0 or one.choices or {one.dest, *called} & {*NAMES}
            assert is_known or {*called} & {*FILES, *WITHOUT_NAMES}, (name, one)


PROGRAMS = {
    "bash": ("bash", "--norc", "-i"),
    "zsh": ("zsh", "-f", "-i"),
    "fish": ("fish", "-N", "-i"),
}
SOURCED = {shell: f"source <(matrixgen completion {shell})" for shell in SHELLS} | {
    "fish": "matrixgen completion fish | source"
}


@pytest.mark.parametrize("shell", SHELLS if IS_LONG else ("bash",))
def test_a_real_shell_completes_a_command_a_file_and_a_layer(folder, shell):
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    terminal = Terminal(program=PROGRAMS[shell], PATH=path, PS1="> ", HOME=str(folder))
    terminal.type(f"{SOURCED[shell]}; echo re''ady\n")
    terminal.wait_for("ready")
    terminal.type("matrixgen sho\tpa\t--lay\tna\t")
    terminal.wait_for("matrixgen show pad.keys --layer nav")
    terminal.type("\x15matrixgen explain pin-us\t")
    terminal.wait_for("matrixgen explain pin-used-twice")
    terminal.type("\x15exit\n")
    assert terminal.status() == 0


def test_names_with_control_characters_are_not_offered(folder, program):
    (folder / "a\x1b[2J.keys").write_text(GOOD, "utf-8")
    ran = program("completion", "bash", "--", "matrixgen", "check", "a")
    assert "\x1b" not in ran.out
