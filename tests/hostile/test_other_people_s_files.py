"""A path in a stranger's file leads nowhere but into its own repository."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.boards.own_files import good
from tests.hostile.conftest import SECRET
from tests.texts import good_on

COMMANDS = [
    ("check",),
    ("check", "--json"),
    ("check", "--sarif"),
    ("check", "--fix"),
    ("facts",),
    ("facts", "--below"),
    ("figures",),
    ("fit",),
    ("fmt",),
    ("fmt", "--diff"),
    ("sheet",),
    ("show",),
    ("build", "--out", "out"),
]
OUTSIDE = ["secret.txt", "secret.json"]


def assert_silent(ran, *, about: str = "outside") -> None:
    assert ran.status in (1, 2)
    assert SECRET not in ran.out + ran.err
    assert about in ran.out + ran.err


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
@pytest.mark.parametrize("name", OUTSIDE)
def test_a_keys_file_that_leads_out_of_its_repository_is_not_read(stranger, command, name):
    stranger.link("env.keys", f"../outside/{name}")
    assert_silent(stranger(command[0], "env.keys", *command[1:]), about="it leads out of")


@pytest.mark.parametrize(("link", "name"), [("sub", "sub/secret.txt"), ("a", "a/secret.json")])
def test_nor_is_one_that_a_folder_leads_out(stranger, link, name):
    stranger.link(link, "../outside")
    assert_silent(stranger("check", name), about="it leads out of")


def test_nor_is_git_s_own_configuration_which_may_hold_a_token(stranger):
    stranger.link("env.keys", ".git/config")
    assert_silent(stranger("check", "env.keys"), about="belongs to git")
    for path in (".git/config", "./x/../.git/config"):
        assert_silent(stranger("check", stranger.keyboard(controller=f'"{path}"')), about="git")


def test_nor_a_script_nor_a_version_to_merge(stranger):
    pad, link = stranger.keyboard(), stranger.link("env.keys", "../outside/secret.txt")
    assert_silent(stranger("rehearse", pad, "--script", link), about="it leads out of")
    assert_silent(stranger("merge", pad, pad, link, "-o", "-"), about="it leads out of")
    ran = stranger("git-diff", "env.keys", link, "1", "120000", pad, "2", "100644")
    assert SECRET not in ran.out + ran.err and "it leads out of" in ran.out


def test_without_a_repository_a_link_stays_below_its_folder(stranger):
    (stranger.folder / ".git" / "config").unlink()
    (stranger.folder / ".git").rmdir()
    stranger.link("env.keys", "../outside/secret.txt")
    assert_silent(stranger("check", "env.keys"), about="it leads out of")
    found = stranger("check", stranger.keyboard(controller='"../outside/secret.json"'))
    assert_silent(found, about="it is outside the folder")


@pytest.mark.parametrize("statement", ["controller", "diodes"])
@pytest.mark.parametrize("name", OUTSIDE)
@pytest.mark.parametrize(
    ("way", "command"),
    [
        *(("link", command) for command in COMMANDS),
        *((way, ("check",)) for way in ("absolute", "relative", "linked folder")),
    ],
    ids=str,
)
def test_what_a_file_names_is_not_read_outside(stranger, command, statement, name, way):
    stranger.link("own.json", f"../outside/{name}")
    stranger.link("own", "../outside")
    path = {
        "absolute": str(stranger.outside / name),
        "relative": f"../outside/{name}",
        "link": "own.json",
        "linked folder": f"own/{name}",
    }[way]
    ran = stranger(command[0], stranger.keyboard(**{statement: f'"{path}"'}), *command[1:])
    assert SECRET not in ran.out + ran.err
    if command[0] == "check":
        assert_silent(ran, about="it is outside the repository")


def test_the_environment_of_the_process_stays_there(stranger, monkeypatch):
    stranger.link("env.keys", "/proc/self/environ")
    assert "PATH=" not in stranger("check", "env.keys").out
    ran = stranger("check", stranger.keyboard(controller='"/proc/self/environ"'))
    assert "PATH=" not in ran.out and "it is outside" in ran.out


def test_nothing_is_said_of_whether_there_is_such_a_file_outside(stranger):
    paths = ("../outside/secret.json", "../outside/no-such.json", "../outside", "/", "/no/such")
    said = [stranger("check", stranger.keyboard(controller=f'"{path}"')).out for path in paths]
    reasons = {text.partition("cannot be read")[2].splitlines()[0] for text in said}
    assert len(reasons) == 1
    assert "outside the repository" in reasons.pop()


def test_a_file_that_is_no_profile_is_not_quoted_even_inside(stranger):
    kinds = {
        "secrets.json": json.dumps({f"key-{SECRET}": SECRET, "name": SECRET, "port": SECRET}),
        "./.env": f"TOKEN={SECRET}\n",
        "list.json": json.dumps([SECRET]),
        "text.json": json.dumps(SECRET),
    }
    for path, text in kinds.items():
        stranger.write(path, text)
        for statement, kind in (("controller", "a profile"), ("diodes", "a diode")):
            ran = stranger("check", stranger.keyboard(**{statement: f'"{path}"'}))
            assert_silent(ran, about=f"`{Path(path)}` is not ")
            assert ran.out.count("error[") == 1, ran.out
            assert kind in ran.out or "not JSON" in ran.out


def test_what_is_quoted_of_a_profile_has_bounds(stranger):
    document = {**good(), "x" * 5000: 1, "family": "Y" * 5000}
    stranger.write("own.json", json.dumps(document, indent=2))
    ran = stranger("check", stranger.keyboard(controller='"own.json"'))
    assert "has no field `xxx" in ran.out and "`family` `YYY" in ran.out
    assert max(map(len, ran.out.splitlines())) < 300


def good_with(profile: str | Path) -> str:
    return good_on(f'"{profile}"', "PD1", "PB1", "PB2")


def own_board(stranger, folder: Path) -> str:
    (folder / "own.json").write_text(json.dumps(good(), indent=2))
    return stranger.write("pad.keys", good_with(folder / "own.json"))


def test_profiles_of_the_same_repository_are_found_wherever_they_lie_in_it(stranger):
    keyboards, boards = stranger.folder / "keyboards", stranger.folder / "boards"
    keyboards.mkdir()
    boards.mkdir()
    (boards / "own.json").write_text(json.dumps(good(), indent=2))
    (keyboards / "linked.json").symlink_to("../boards/own.json")
    for path in ("../boards/own.json", "linked.json", str(boards / "own.json")):
        stranger.write("keyboards/pad.keys", good_with(path))
        ran = stranger("check", "keyboards/pad.keys")
        assert ran.status == 0, ran.out
    (stranger.folder / "pad.keys").symlink_to("keyboards/pad.keys")
    assert "outside" not in stranger("check", "pad.keys").out


def test_a_folder_that_the_user_names_once_is_read_from(stranger, tmp_path):
    name = own_board(stranger, stranger.outside)
    ran = stranger("check", name)
    assert_silent(ran, about="it is outside the repository")
    setting = tmp_path / "config" / "matrixgen" / "folders"
    assert f"name its folder in `{setting}`" in ran.out
    setting.parent.mkdir(parents=True)
    setting.write_text(f"# my boards\n\n{stranger.outside}\n")
    assert stranger("check", name).status == 0
    stranger.link("linked.keys", "../outside/linked.keys")
    (stranger.outside / "linked.keys").write_text((stranger.folder / name).read_text())
    assert stranger("check", "linked.keys").status == 0


@pytest.mark.parametrize("line", ["../outside", "outside", "."])
def test_a_folder_that_is_not_named_from_the_root_is_told_of(stranger, tmp_path, line):
    setting = tmp_path / "config" / "matrixgen" / "folders"
    setting.parent.mkdir(parents=True)
    setting.write_text(f"# mine\n{line}\n")
    ran = stranger("check", own_board(stranger, stranger.outside))
    assert_silent(ran, about=f"line 2 of `{setting}` is not an absolute path")


def test_the_setting_is_never_taken_from_the_repository(stranger, tmp_path):
    (tmp_path / "config" / "matrixgen").mkdir(parents=True)
    for folder in (".", "config", "matrixgen", ".matrixgen", ".config/matrixgen"):
        (stranger.folder / folder).mkdir(parents=True, exist_ok=True)
        (stranger.folder / folder / "folders").write_text(f"{stranger.outside}\n")
    assert_silent(stranger("check", own_board(stranger, stranger.outside)))
