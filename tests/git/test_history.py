"""`matrixgen history`: a line a revision, newest first, whatever the file was called."""

from __future__ import annotations

import json

import jsonschema
import pytest

from matrixgen.resources import resource
from tests.merge.test_cases import BASE, edited

SCHEMA = json.loads((resource("templates") / "history.schema.json").read_text("utf-8"))


@pytest.fixture
def pad(repository):
    """A file that was made, retyped, rewired, renamed, spaced anew, broken and mended."""
    cell, pin = ("K2 = copy", "K2 = Tab"), ("on PB2", "on PB3")
    for name, text, subject in (
        ("old.keys", BASE, "The pad"),
        ("old.keys", edited(cell), "Tab where copy was, for which nobody had any use"),
        ("old.keys", edited(cell, pin), "The last column on another pin"),
        ("pad.keys", edited(cell, pin), "Renamed"),
        ("pad.keys", edited(cell, pin).replace("  ", "\t"), "Spaced"),
        ("pad.keys", "plat\n", "Oops"),
        ("pad.keys", edited(cell, pin), "Mended"),
    ):
        if name == "pad.keys":
            (repository.folder / "old.keys").unlink(missing_ok=True)
        repository.write(name, text)
        repository.write("other.txt", subject)
        repository.commit(subject)
    return repository


def test_each_revision_has_a_line_of_80_columns(pad, program):
    ran = program("history", "pad.keys")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        "2024-01-08  unreadable  Mended                        can be read again; before…",
        "2024-01-07  unreadable  Oops                          line 1: there is no block…",
        "2024-01-06  cosmetic    Spaced                        written differently",
        "2024-01-05  none        Renamed                       no change to its content",
        "2024-01-04  solder      The last column on another …  1 wire on another pin; th…",
        "2024-01-03  reflash     Tab where copy was, for whi…  1 key on layer base",
        "2024-01-02  new         The pad                       6 keys",
    ]
    assert all(len(line) <= 80 for line in ran.out.splitlines())


def test_json_is_as_its_schema_says(pad, program):
    told = json.loads(program("history", "pad.keys", "--json").out)
    jsonschema.validate(told, SCHEMA)
    revisions = told["revisions"]
    assert [one["path"] for one in revisions] == ["pad.keys"] * 4 + ["old.keys"] * 3
    assert revisions[0]["commit"] == pad("rev-parse", "HEAD").strip()
    assert revisions[5]["subject"] == "Tab where copy was, for which nobody had any use"
    assert revisions[4]["headline"].startswith("solder: 1 wire on")


def test_later_revisions_alone(pad, program):
    ran = program("history", "pad.keys", "--since", "2024-01-07")
    assert [line[:10] for line in ran.out.splitlines()] == ["2024-01-08", "2024-01-07"]
    ran = program("history", "pad.keys", "--since=2025-01-01")
    assert ran.status == 2 and "no revision of `pad.keys` since 2025-01-01" in ran.err


def test_a_file_of_another_folder_and_one_that_is_gone(pad, program, monkeypatch):
    (pad.folder / "below").mkdir()
    monkeypatch.chdir(pad.folder / "below")
    assert program("history", "../pad.keys").out.count("\n") == 7
    monkeypatch.chdir(pad.folder.parent)
    assert program("history", f"{pad.folder.name}/pad.keys").out.count("\n") == 7
    monkeypatch.chdir(pad.folder)
    (pad.folder / "pad.keys").unlink()
    pad.commit("Gone")
    first = program("history", "pad.keys").out.splitlines()[0]
    assert first.endswith("Gone                          the file was removed")


def test_a_path_is_no_pattern_and_no_option(pad, program):
    pad.write("-x.keys", "plate\n  line Z\n")
    pad.write("*.keys", "plate\n  line Home End\n")
    pad.commit("Odd names")
    assert program("history", "./-x.keys").out.count("\n") == 1
    assert program("history", "*.keys").out.count("\n") == 1


def test_a_merge_is_told_of_only_where_it_changed_what_both_sides_had(pad, program):
    pad("checkout", "-q", "-b", "side")
    pad.write("pad.keys", pad.read("pad.keys").replace("5 ms", "6 ms"))
    pad.commit("Slower")
    pad("checkout", "-q", "main")
    pad.write("pad.keys", pad.read("pad.keys").replace("K3 = Esc", "K3 = Tab"))
    pad.commit("Tab")
    pad("merge", "-q", "--no-edit", "side")
    told = program("history", "pad.keys").out
    assert "Slower" in told and "Tab  " in told
    works = [line.split()[1] for line in told.splitlines()]
    assert works.count("reflash") >= 3


def test_what_git_does_not_have_is_said(pad, program, repository, monkeypatch):
    ran = program("history", "nowhere.keys")
    assert ran.status == 2 and "git has no revision of `nowhere.keys`" in ran.err
    monkeypatch.setenv("PATH", str(pad.folder))
    assert "the program `git` was not found" in program("history", "pad.keys").err


def test_a_repository_without_commits_and_no_repository(repository, program, tmp_path_factory):
    repository.write("pad.keys")
    ran = program("history", "pad.keys")
    assert ran.status == 2 and "this repository has no commits yet" in ran.err
    alone = tmp_path_factory.mktemp("alone")
    (alone / "pad.keys").write_text(BASE)
    assert "this folder is in no git repository" in program("history", str(alone / "pad.keys")).err


def test_each_content_is_read_once_and_git_is_run_twice(pad, program, monkeypatch):
    import matrixgen.git.history as git
    import matrixgen.jobs.history as job

    read, run = [], []
    real_read, real_run = job.read_design, git.run_git
    monkeypatch.setattr(
        job, "read_design", lambda *words: read.append(words[1]) or real_read(*words)
    )
    monkeypatch.setattr(git, "run_git", lambda *w, **n: run.append(w) or real_run(*w, **n))
    program("history", "pad.keys")
    assert len(read) == len(set(read)) == 5
    assert len(run) == 2
