"""`matrixgen git-setup` in real repositories, and what plain git commands show after it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from matrixgen.git.setup import ATTRIBUTES, drivers
from tests.merge.test_cases import BASE, edited


@pytest.fixture
def pad(repository):
    """A repository with two revisions of a keyboard: another debounce, and another cell."""
    repository.save("pad.keys", BASE, "The pad")
    repository.save("pad.keys", edited(("5 ms", "6 ms"), ("K2 = copy", "K2 = Tab")), "Another cell")
    return repository


def state(folder: Path) -> dict[str, bytes]:
    """Every file of a repository that says how it is set up."""
    files = [*folder.glob(".git/info/*"), folder / ".git" / "config"]
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


def test_it_says_each_change_and_twice_is_once_and_undo_leaves_no_trace(pad, program):
    before = state(pad.folder)
    first = program("git-setup")
    assert first.status == 0 and first.err == ""
    lines = first.out.splitlines()
    assert [line.split(" = ")[0] for line in lines[:-1]] == [f"set   {name}" for name in drivers()]
    assert lines[-1] == f"add   `{ATTRIBUTES}` in .git/info/attributes"
    after = state(pad.folder)
    assert program("git-setup").out == "nothing to change: this repository is set up\n"
    assert state(pad.folder) == after
    assert pad("status", "--porcelain") == "", "nothing is to be committed"
    assert program("git-setup", "--undo").out.count("unset") == len(drivers())
    assert state(pad.folder) == before
    assert program("git-setup", "--undo").out == "nothing to change: this repository is as before\n"


@pytest.mark.parametrize("text", ["*.png binary\n", "*.png binary", "", "# mine\r\n"])
def test_attributes_that_are_there_stay_as_they_are(pad, program, text):
    path = pad.write(".git/info/attributes", text)
    assert program("git-setup").status == 0
    assert ATTRIBUTES in path.read_bytes().decode().splitlines()
    assert "merge: matrixgen" in pad("check-attr", "merge", "--", "pad.keys")
    program("git-setup", "--undo")
    assert not text or path.read_bytes().decode() == text


def test_a_driver_of_that_name_that_is_not_ours_is_left_alone(pad, program):
    pad("config", "merge.matrixgen.driver", "mine %A")
    before = state(pad.folder)
    ran = program("git-setup")
    assert ran.status == 2 and ran.out == ""
    assert "has another `merge.matrixgen.driver` already: `mine %A`" in ran.err
    assert "git config --local --unset merge.matrixgen.driver" in ran.err
    assert state(pad.folder) == before
    assert program("git-setup", "--undo").status == 0
    assert state(pad.folder) == before


def test_an_older_setup_of_another_python_is_brought_up_to_date(pad, program):
    pad("config", "merge.matrixgen.driver", "/gone/python -P -m matrixgen merge %O %A %B")
    assert program("git-setup").status == 0
    assert sys.executable in pad("config", "merge.matrixgen.driver")


def test_no_repository_a_bare_one_and_no_git(pad, program, monkeypatch, tmp_path_factory):
    bare = tmp_path_factory.mktemp("bare") / "bare.git"
    subprocess.run(["git", "init", "-q", "--bare", str(bare)], check=True)
    monkeypatch.chdir(bare)
    assert "this is a bare repository" in program("git-setup").err
    alone = tmp_path_factory.mktemp("alone")
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(alone.parent))
    monkeypatch.chdir(alone)
    ran = program("git-setup")
    assert ran.status == 2 and "this folder is in no git repository" in ran.err
    monkeypatch.setenv("PATH", str(alone))
    assert "the program `git` was not found" in program("git-setup").err


def test_a_folder_below_and_a_work_tree_set_up_the_same_repository(
    pad, program, monkeypatch, tmp_path_factory
):
    (pad.folder / "below").mkdir()
    monkeypatch.chdir(pad.folder / "below")
    assert program("git-setup").status == 0
    assert (pad.folder / ".git" / "info" / "attributes").read_text() == f"{ATTRIBUTES}\n"
    tree = tmp_path_factory.mktemp("tree") / "tree"
    pad("worktree", "add", "-q", str(tree))
    monkeypatch.chdir(tree)
    assert program("git-setup").out == "nothing to change: this repository is set up\n"
    assert program("git-setup", "--undo").status == 0
    assert not (pad.folder / ".git" / "info" / "attributes").exists()


def test_attributes_that_cannot_be_written_change_nothing(pad, program):
    (pad.folder / ".git" / "info" / "attributes").mkdir()
    before = (pad.folder / ".git" / "config").read_bytes()
    ran = program("git-setup")
    assert ran.status == 2 and "cannot be" in ran.err
    assert (pad.folder / ".git" / "config").read_bytes() == before


def test_git_diff_has_a_headline(pad, program):
    program("git-setup")
    shown = pad("diff", "HEAD~1")
    assert shown.startswith("pad.keys\nreflash only: ")
    assert "the debounce time changed from 5 ms to 6 ms" in shown
    pad("mv", "pad.keys", "new.keys")
    assert "pad.keys -> new.keys" in pad("diff", "-M", "HEAD~1")


PLAIN = [("show",), ("log", "-p"), ("blame", "-s", "pad.keys"), ("log", "-L1,5:pad.keys")]


@pytest.mark.parametrize("words", PLAIN, ids=" ".join)
def test_what_shows_lines_shows_the_file_s_own_and_runs_nothing(pad, program, words, monkeypatch):
    plain = pad(*words)
    program("git-setup")
    trap = pad.write(".git/python", "#!/bin/sh\nexit 1\n")
    trap.chmod(0o755)
    for name, value in drivers(str(trap)).items():
        pad("config", name, value)
    assert pad(*words) == plain


def test_a_merge_under_way_is_shown_as_lines(pad, program):
    pad("checkout", "-q", "-b", "side", "HEAD~1")
    pad.save("pad.keys", edited(("5 ms", "7 ms")))
    plain = (pad("merge", "main", fails=True), pad("diff", "--no-ext-diff"))[1]
    program("git-setup")
    assert pad("diff") == plain


@pytest.mark.parametrize("words", [("show",), ("log", "-p", "-1")])
def test_git_log_and_show_say_what_changed_when_they_are_asked(pad, program, words):
    program("git-setup")
    assert "the debounce time changed from 5 ms to 6 ms" in pad(*words, "--ext-diff")


def test_what_an_earlier_version_set_up_goes_and_works_until_then(pad, program):
    program("git-setup")
    before = state(pad.folder)
    former = f'f() {{ {sys.executable} -P -m matrixgen facts --below -- "$1"; }}; f'
    pad("config", "diff.matrixgen.textconv", former)
    assert "+  debounce 6 ms" in pad("show")
    assert program("git-setup").out.startswith("unset diff.matrixgen.textconv\n")
    assert "textconv" not in pad("config", "--local", "--list")
    pad("config", "diff.matrixgen.textconv", former)
    program("git-setup", "--undo")
    assert "textconv" not in pad("config", "--local", "--list")
    program("git-setup")
    pad("config", "diff.matrixgen.textconv", "mine")
    assert program("git-setup").out == "nothing to change: this repository is set up\n"
    assert pad("config", "diff.matrixgen.textconv") == "mine\n"
    assert set(before) == set(state(pad.folder))


def test_a_revision_that_does_not_read_stops_neither(pad, program):
    pad.save("pad.keys", "plat\n\xff")
    program("git-setup")
    assert "+plat" in pad("show")
    assert "+plat" in pad("diff", "HEAD~1")
    (pad.folder / "pad.keys").unlink()
    assert "file removed" in pad("diff")


def test_a_merge_uses_the_driver_and_a_python_that_is_gone_loses_nothing(pad, program):
    program("git-setup")
    pad("checkout", "-q", "-b", "side", "HEAD~1")
    pad.save("pad.keys", edited(("K1 = hold", "K1 = latch")))
    pad("merge", "-q", "--no-edit", "main")
    assert "  K1 = latch layer nav  K2 = Tab\n" in pad.read("pad.keys")
    pad("reset", "-q", "--hard", "HEAD~1")
    for name, value in drivers("/gone/python").items():
        pad("config", name, value)
    assert "CONFLICT" in pad("merge", "--no-edit", "main", fails=True)
    text = pad.read("pad.keys")
    assert "<<<<<<<" in text and "K2 = Tab" in text and "K1 = latch" in text
    pad("merge", "--abort")
    assert "+  debounce 6 ms" in pad("show", "main") and "+  debounce 6 ms" in pad(
        "diff", "main~1", "main"
    )


def test_facts_are_one_a_line_and_blanks_change_none(program):
    program.write("pad.keys", BASE)
    program.write("same.keys", BASE.replace("  ", "\t").replace("# first", ""))
    ran = program("facts", "pad.keys")
    assert ran.status == 0 and program("facts", "same.keys").out == ran.out
    lines = ran.out.splitlines()
    assert "[reflash] layer base, key K1: hold layer nav" in lines
    assert {"[solder] wire c0: column", "[solder] wire c0: pin PB0 of atmega32u4"} <= set(lines)
    assert "[solder] wire r0: keys A B C" in lines
    assert len(lines) == len(set(lines))
    assert all(line.startswith(("[solder] ", "[reflash] ", "[cosmetic] ")) for line in lines)


def test_facts_of_what_is_no_keyboard(program):
    assert program("facts", "gone.keys").status == 2
    program.write("broken.keys", "plat\n")
    ran = program("facts", "broken.keys")
    assert ran.status == 1 and "error[" in ran.err and ran.out == ""


def test_git_diff_by_hand_is_bad_use(program):
    assert program("git-diff", "a.keys", "b.keys").status == 2
    assert program("git-diff", "a.keys").out == "a.keys: not merged yet\n"


def test_facts_of_phrases_with_commas_have_one_form(program):
    more = "\n\nlayer both while nav and sys are on\n  A = 1\n\nlayer sys\n  A = 2\n"
    base = BASE.replace("5 ms", "5 ms, press 2 ms\n  once lasts 900 ms\n  remember base") + more
    tap = "K3 = tap Esc, hold layer nav, after 180 ms"
    program.write("pad.keys", base.replace("K3 = Esc", tap))
    other = base.replace("K3 = Esc", "K3 = tap Esc ,hold  layer nav ,\n    and after 180ms")
    program.write("same.keys", other.replace("nav and sys", "sys and nav"))
    ran = program("facts", "pad.keys")
    assert ran.status == 0 and program("facts", "same.keys").out == ran.out
    assert {
        "[reflash] press: 2 ms",
        "[cosmetic] no key asks for once lasts: 900 ms",
        "[cosmetic] no key asks for remember base: yes",
        "[reflash] layer both: while nav and sys are on",
        "[reflash] layer base, key K3: tap Escape, hold layer nav, after 180 ms",
    } <= set(ran.out.splitlines())


def test_facts_of_holes_and_areas_are_in_no_order(program):
    two = "  hole at 10, 3\n  keep clear 5, 0, 1, 2.5\n  hole at 9, -1.5\n"
    end = "  line K1 K2 K3\n"
    program.write("pad.keys", BASE.replace(end, end + two))
    lines = two.splitlines(keepends=True)
    program.write("same.keys", BASE.replace(end, "".join([*lines[::-1], end, lines[0]])))
    ran = program("facts", "pad.keys")
    assert ran.status == 0 and program("facts", "same.keys").out == ran.out
    assert [line for line in ran.out.splitlines() if "hole" in line or "clear" in line] == [
        "[solder] hole: at 9, -1.5",
        "[solder] hole: at 10, 3",
        "[solder] keep clear: 1 x 2.5 at 5, 0",
    ]


def test_a_patch_is_made_of_plain_lines(pad, program, tmp_path):
    """As the README says: what `git diff` prints is for people, and `git apply` asks for lines."""
    program("git-setup")
    patch = tmp_path / "a.patch"
    for words, is_patch in (
        (("diff", "HEAD~1"), False),
        (("diff", "--no-ext-diff", "HEAD~1"), True),
        (("format-patch", "-1", "--stdout"), True),
    ):
        patch.write_bytes(pad(*words, text=False))
        pad("checkout", "-q", "HEAD~1", "--", "pad.keys")
        said = pad("apply", str(patch), fails=not is_patch)
        assert ("No valid patches" in said) == (not is_patch)
        assert pad.read("pad.keys") == (
            edited(("5 ms", "6 ms"), ("K2 = copy", "K2 = Tab")) if is_patch else BASE
        )
        pad("reset", "-q", "--hard")
