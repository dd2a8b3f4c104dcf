"""`REV:PATH`: the bytes of a file as git has them, or a clear reason why not."""

from __future__ import annotations

import os
import subprocess

import pytest

from matrixgen.failure import Failure
from matrixgen.git import is_revision, read_revision

OLD, NEW = b"old\r\n\xff", b"new\n"


def problem_of(spec: str) -> Failure:
    with pytest.raises(Failure) as caught:
        read_revision(spec)
    found = caught.value
    assert found.text[:1].islower() or found.text.startswith("`")
    assert not found.text.endswith(".")
    return found


@pytest.fixture
def pad(repository):
    repository.save("boards/pad.keys", OLD)
    repository("tag", "v1")
    repository.write("boards/pad.keys", NEW)
    repository.write("boards/pad two.keys", b"two")
    repository.save("pad.keys", b"at the top")
    return repository


@pytest.mark.parametrize(
    ("spec", "data"),
    [
        ("HEAD~1:boards/pad.keys", OLD),
        ("v1:boards/pad.keys", OLD),
        ("main:boards/pad.keys", NEW),
        ("main:boards\\pad.keys", NEW),
        ("main:./boards/pad.keys", NEW),
        ("main:boards/pad two.keys", b"two"),
        ("HEAD@{0}:pad.keys", b"at the top"),
        (":boards/pad.keys", NEW),
        (":0:boards/pad.keys", NEW),
        ("HEAD^{/change}:pad.keys", b"at the top"),
    ],
)
def test_a_revision_s_file_is_read_byte_for_byte(pad, spec, data):
    assert is_revision(spec)
    assert read_revision(spec) == data


def test_a_path_is_looked_for_from_the_top_and_then_from_here(pad, monkeypatch):
    monkeypatch.chdir(pad.folder / "boards")
    assert read_revision("main:pad.keys") == b"at the top"
    assert read_revision("main:./pad.keys") == NEW
    assert read_revision("v1:pad.keys") == OLD, "it was not at the top yet"
    assert read_revision("main:boards/pad.keys") == NEW
    assert read_revision("main:../pad.keys") == b"at the top"


def test_what_is_not_committed_does_not_count_but_what_is_staged_is_in_the_index(pad):
    pad.write("pad.keys", b"mine")
    assert read_revision(":pad.keys") == b"at the top"
    pad("add", "pad.keys")
    assert read_revision(":pad.keys") == b"mine"
    assert read_revision("HEAD:pad.keys") == b"at the top"


def test_a_revision_that_is_not_there_is_named_with_one_of_a_similar_name(pad):
    found = problem_of("mainn:pad.keys")
    said = ("there is no revision `mainn`", ("`main` has a similar name",))
    assert (found.text, found.helps) == said
    assert problem_of("HEAD~7:pad.keys").helps == ("`git log --oneline` lists the revisions",)


def test_a_path_that_is_not_there_is_named_with_one_of_a_similar_name(pad):
    found = problem_of("v1:boards/pda.keys")
    assert found.text == "there is no `boards/pda.keys` in `v1`"
    assert found.helps == ("`boards/pad.keys` has a similar name",)
    assert problem_of("v1:nowhere").helps == ("its only .keys file is `v1:boards/pad.keys`",)
    assert problem_of(":nowhere").text == "there is no `nowhere` in the index"


def test_a_folder_is_no_file(pad):
    assert problem_of("main:boards").text == "`boards` is a folder in `main`"
    assert problem_of("main:boards/").text == "`boards/` is a folder in `main`"


def test_a_path_outside_the_repository_is_not_there(pad):
    assert problem_of("main:../../etc/passwd").text == "there is no `../../etc/passwd` in `main`"


def test_a_word_that_looks_like_an_option_is_none(pad):
    found = problem_of("--output=gone:pad.keys")
    assert found.text == "there is no revision `--output=gone`"
    assert problem_of("-h:pad.keys").text == "there is no revision `-h`"
    assert not (pad.folder / "gone").exists()


def test_a_shallow_clone_says_that_it_is_one(pad, monkeypatch):
    clone = pad.folder / "clone"
    source = pad.folder.as_uri()
    subprocess.run(["git", "clone", "-q", "--depth=1", source, str(clone)], check=True)
    monkeypatch.chdir(clone)
    assert read_revision("HEAD:pad.keys") == b"at the top"
    found = problem_of("HEAD~1:boards/pad.keys")
    assert "which has the latest revisions alone" in found.text
    assert found.helps == ("`git fetch --unshallow` gets the others",)


def test_a_bare_repository_can_be_asked(pad, monkeypatch):
    bare = pad.folder / "bare.git"
    subprocess.run(["git", "clone", "-q", "--bare", str(pad.folder), str(bare)], check=True)
    monkeypatch.chdir(bare)
    assert read_revision("main:boards/pad.keys") == NEW
    assert problem_of("main:gone.keys").text == "there is no `gone.keys` in `main`"


def test_a_repository_without_a_revision_has_none(repository):
    assert problem_of("HEAD:pad.keys").text == "there is no revision `HEAD`"


def test_no_repository_and_no_git_are_told_apart(git_environment, program, monkeypatch):
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(program.folder.parent))
    assert problem_of("HEAD:pad.keys").text == "this folder is in no git repository"
    monkeypatch.setenv("PATH", str(program.folder))
    assert problem_of("HEAD:pad.keys").text == "the program `git` was not found"


def test_what_is_no_revision_of_a_file_is_said_to_be_none(pad):
    for spec in ("pad.keys", "main:", "main:a\nb", ""):
        assert "names no revision of a file" in problem_of(spec).text


@pytest.mark.parametrize("word", ["pad.keys", "-", "C:\\pads\\x.keys", "c:/x.keys", "main:", ""])
def test_these_are_paths(word, program):
    assert not is_revision(word)


def test_the_name_of_a_file_that_is_there_is_a_path(program):
    assert is_revision("main:pad.keys")
    program.write("main:pad.keys", "x")
    assert not is_revision("main:pad.keys")


def test_a_word_that_is_too_long_for_a_path_is_no_crash(program):
    assert is_revision("main:" + "x" * 5000)
    assert is_revision("main:x\0") == (os.name == "posix")


def test_no_more_is_read_than_a_file_may_have(pad, program):
    from matrixgen.boards.own_json import MOST_BYTES as OF_BOARDS
    from matrixgen.git.beside import MOST_BYTES, read_each
    from matrixgen.source.limits import LIMITS

    assert max(LIMITS.file_bytes, OF_BOARDS) <= MOST_BYTES
    pad.write("large.keys", b"#" * (MOST_BYTES + 1))
    pad.save("full.keys", b"#" * MOST_BYTES)
    assert problem_of("HEAD:large.keys").text == (
        "`large.keys` in `HEAD` has more than 1,000,000 bytes"
    )
    specs = ["HEAD:large.keys", "HEAD:none", "HEAD:boards", "HEAD:full.keys", "HEAD:../up"]
    large, *others = read_each(specs)
    assert large is None and [one and len(one) for one in others] == [None, None, MOST_BYTES, None]
    assert "too large" in program("history", "large.keys").out
