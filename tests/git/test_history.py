"""`matrixgen history`: a line a revision, newest first, whatever the file was called."""

from __future__ import annotations

import json
import os

import pytest

from matrixgen.cli import history
from tests.documents import report_of
from tests.merge.test_cases import BASE, edited


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
        repository.save("other.txt", subject, subject)
    return repository


def hashes(pad) -> list[str]:
    """The commits' abbreviated names, newest first."""
    return pad("log", "--format=%h", "--abbrev=7").split()


def test_each_revision_has_a_line_of_80_columns_on_a_terminal(pad, program, monkeypatch):
    monkeypatch.setattr(history, "is_screen", lambda stream: True)
    ran = program("history", "pad.keys")
    assert (ran.status, ran.err) == (0, "")
    mended, oops, spaced, renamed, solder, tab, new = hashes(pad)
    assert ran.out.splitlines() == [
        f"2024-01-08  {mended}  cosmetic    Mended                  1 way to write it",
        f"                     over {oops}, which does not read",
        f"2024-01-07  {oops}  unreadable  Oops                    line 1: there is no bl…",
        f"2024-01-06  {spaced}  cosmetic    Spaced                  1 way to write it",
        f"2024-01-05  {renamed}  none        Renamed                 no change to its conte…",
        f"2024-01-04  {solder}  solder      The last column on an…  1 wire on another pin;…",
        f"2024-01-03  {tab}  reflash     Tab where copy was, f…  1 key on layer base",
        f"2024-01-02  {new}  new         The pad                 6 keys",
    ]
    assert all(len(line) <= 80 for line in ran.out.splitlines())


def test_what_is_piped_is_not_cut(pad, program):
    ran = program("history", "pad.keys")
    assert "Tab where copy was, for which nobody had any use  1 key on layer base" in ran.out
    assert "unreadable  Oops                    line 1: there is no block `plat`" in ran.out
    assert "…" not in ran.out


IRON = ("on PB0", "on PD7")


@pytest.mark.parametrize(
    "texts",
    [
        (edited(IRON) + "plat\n", edited(IRON)),
        ("plat\n", edited(IRON) + "plat\n", edited(IRON)),
        (edited(IRON) + "plat\n", "plat\n", edited(IRON)),
        (None, edited(IRON)),
        ("plat\n", None, "plat\n", edited(IRON)),
    ],
    ids=["with it", "between", "before", "where the file was gone", "gone and unreadable"],
)
def test_iron_work_is_told_with_the_next_revision_that_reads(repository, program, texts):
    repository.save("pad.keys", BASE, "The pad")
    for text in texts:
        if text is None:
            (repository.folder / "pad.keys").unlink()
        else:
            repository.write("pad.keys", text)
        repository.commit("Oops")
    told = report_of(program("history", "pad.keys", "--json").out, "history")
    first, *others, _ = told["revisions"]
    assert first["headline"] == "solder: 1 wire on another pin; then reflash"
    assert first["over"] == [one["commit"] for one in others]
    assert len(others) == len(texts) - 1


def test_revisions_with_one_kind_of_work_alone(pad, program):
    names = dict(zip(("mended", "oops"), hashes(pad), strict=False))
    assert [
        line.split()[0] for line in program("history", "pad.keys", "--only=solder").out.splitlines()
    ] == ["2024-01-04"]
    assert names["mended"] in program("history", "pad.keys", "--only=cosmetic").out
    ran = program("history", "pad.keys", "--only=solder", "--since=2024-01-05")
    assert (ran.status, ran.out) == (0, "no change to solder\n")
    pad.save("pad.keys", "plat\n", "Nobody knows")
    out = program("history", "pad.keys", "--only=solder").out
    assert "Nobody knows" in out and "Oops" not in out


def test_what_came_after_a_revision(pad, program):
    _, _, spaced, *_ = hashes(pad)
    pad("tag", "soldered", spaced)
    for since in (spaced, "soldered", "HEAD~2"):
        out = program("history", "pad.keys", "--since", since).out
        assert [line[:10] for line in out.splitlines() if "over" not in line] == [
            "2024-01-08",
            "2024-01-07",
        ]


def test_the_work_is_coloured_where_git_would_colour(pad, program):
    assert "\x1b" not in program("history", "pad.keys").out
    pad("config", "color.ui", "always")
    out = program("history", "pad.keys").out
    assert "  \x1b[1;31msolder    \x1b[0m  " in out


def test_what_was_found_is_kept_by_contents(pad, program, monkeypatch):
    import matrixgen.jobs.history as job
    import matrixgen.jobs.history_sides as sides

    first = program("history", "pad.keys", "--json").out
    pad.save("pad.keys", edited(("on PB2", "on PB7")), "Once more")
    compared, read = [], []
    real_compared, real_read = job.compared_sides, sides.read_and_mounted
    monkeypatch.setattr(job, "compared_sides", lambda *w: compared.append(w) or real_compared(*w))
    monkeypatch.setattr(sides, "read_and_mounted", lambda *w: read.append(w) or real_read(*w))
    assert (
        json.loads(program("history", "pad.keys", "--json").out)["revisions"][1:]
        == (json.loads(first)["revisions"])
    )
    assert (len(compared), len(read)) == (1, 2)
    monkeypatch.setattr("matrixgen.jobs.kept_history.program_version", lambda: "another")
    program("history", "pad.keys")
    assert len(compared) > 2, "another version looks for itself"


def test_whatever_is_wrong_with_what_was_kept_it_is_found_again(pad, program):
    from matrixgen.cache import cache_folder, keep, kept

    first = program("history", "pad.keys").out
    (path,) = (cache_folder() / "history").iterdir()
    whole = path.read_bytes()
    names = list(json.loads(kept(path)))
    for bad in (b"", whole[:-1], whole[1:], b"\0" * 99):
        path.write_bytes(bad)
        assert program("history", "pad.keys").out == first
    odd = [[], {}, 7, None, ["solder"], ["solder", 7], [["x"], "y"], ["rm", "y"], "solder"]
    texts = [json.dumps(one) for one in odd] + ["[" * 100_000, "\udcff" and "{", '{"a": NaN}']
    texts += [json.dumps(dict.fromkeys(names, one)) for one in odd]
    for text in texts:
        keep(text.encode(), path)
        assert program("history", "pad.keys").out == first, text[:80]
    keep(json.dumps({name: ["solder", "\x1b]0;pwned\x07\n"] for name in names}).encode(), path)
    assert "\x1b" not in program("history", "pad.keys").out
    path.unlink()
    path.mkdir()
    assert program("history", "pad.keys").out == first


def test_json_is_as_its_schema_says(pad, program):
    told = report_of(program("history", "pad.keys", "--json").out, "history")
    revisions = told["revisions"]
    assert [one["path"] for one in revisions] == ["pad.keys"] * 4 + ["old.keys"] * 3
    assert revisions[0]["commit"] == pad("rev-parse", "HEAD").strip()
    assert revisions[0]["over"] == [revisions[1]["commit"]]
    assert revisions[5]["subject"] == "Tab where copy was, for which nobody had any use"
    assert revisions[4]["headline"].startswith("solder: 1 wire on")


def test_a_cache_folder_that_cannot_be_written_is_no_failure(pad, program, monkeypatch):
    first = program("history", "pad.keys").out
    monkeypatch.setenv("XDG_CACHE_HOME", str(pad.write("file", "no folder")))
    ran = program("history", "pad.keys")
    assert (ran.status, ran.out, ran.err) == (0, first, "")


def test_later_revisions_alone(pad, program):
    ran = program("history", "pad.keys", "--since", "2024-01-07")
    assert [line[:10].strip() for line in ran.out.splitlines()] == ["2024-01-08", "", "2024-01-07"]
    ran = program("history", "pad.keys", "--since=2025-01-01")
    assert ran.status == 2 and "no revision of `pad.keys` since 2025-01-01" in ran.err


def test_a_file_of_another_folder_and_one_that_is_gone(pad, program, monkeypatch):
    (pad.folder / "below").mkdir()
    monkeypatch.chdir(pad.folder / "below")
    assert program("history", "../pad.keys").out.count("\n") == 8
    monkeypatch.chdir(pad.folder.parent)
    assert program("history", f"{pad.folder.name}/pad.keys").out.count("\n") == 8
    monkeypatch.chdir(pad.folder)
    (pad.folder / "pad.keys").unlink()
    pad.commit("Gone")
    first = program("history", "pad.keys").out.splitlines()[0]
    assert first.endswith("Gone                    the file was removed")


def test_a_path_is_no_pattern_and_no_option(pad, program):
    pad.write("-x.keys", "plate\n  line Z\n")
    pad.save("*.keys", "plate\n  line Home End\n", "Odd names")
    assert program("history", "./-x.keys").out.count("\n") == 1
    assert program("history", "*.keys").out.count("\n") == 1


def test_a_merge_is_told_of_only_where_it_changed_what_both_sides_had(pad, program):
    pad("checkout", "-q", "-b", "side")
    pad.save("pad.keys", pad.read("pad.keys").replace("5 ms", "6 ms"), "Slower")
    pad("checkout", "-q", "main")
    pad.save("pad.keys", pad.read("pad.keys").replace("K3 = Esc", "K3 = Tab"), "Tab")
    pad("merge", "-q", "--no-edit", "side")
    told = program("history", "pad.keys").out
    assert "Slower" in told and "Tab  " in told
    works = [line.split()[2] for line in told.splitlines()]
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


def test_each_content_is_read_once_and_git_is_run_three_times(pad, program, monkeypatch):
    import matrixgen.git.beside as beside
    import matrixgen.git.history as git
    import matrixgen.jobs.history_sides as sides

    read, run = [], []
    real_read, real_run = sides.read_and_mounted, git.run_git
    monkeypatch.setattr(
        sides, "read_and_mounted", lambda *words: read.append(words[1]) or real_read(*words)
    )
    for room, name in ((git, "run_git"), (beside, "ask_git")):
        monkeypatch.setattr(room, name, lambda *w, **n: run.append(w) or real_run(*w, **n))
    program("history", "pad.keys")
    assert len(read) == len(set(read)) == 5
    assert len(run) == 3


@pytest.fixture
def ahead(monkeypatch):
    """Other processes look ahead however few revisions there are, two at a time."""
    import matrixgen.jobs.history_ahead as ahead

    monkeypatch.setattr(ahead, "FEW", 0)
    monkeypatch.setattr(ahead, "STRETCH", 2)
    monkeypatch.setattr(ahead.os, "cpu_count", lambda: 2)
    return ahead


def test_several_processes_find_the_same_as_one(pad, program, monkeypatch, ahead):
    import matrixgen.jobs.history as job
    import matrixgen.jobs.history_sides as sides

    with monkeypatch.context() as context:
        for room, name in ((job, "compared_sides"), (sides, "read_and_mounted")):
            context.setattr(room, name, None)
        found = program("history", "pad.keys").out
    monkeypatch.setattr("matrixgen.jobs.kept_history.program_version", lambda: "another")
    monkeypatch.setattr(ahead.os, "cpu_count", lambda: 1)
    assert found
    assert program("history", "pad.keys").out == found


def test_only_what_is_asked_for_is_found_ahead(pad, program, ahead):
    whole = program("history", "pad.keys").out.splitlines()
    last = hashes(pad)[3]
    assert program("history", "pad.keys", "--since", last).out.splitlines() == whole[:4]


def test_where_other_processes_end_before_their_time_one_goes_on(pad, program, monkeypatch, ahead):
    monkeypatch.setattr(ahead, "_begin", ends_at_once)
    ran = program("history", "pad.keys")
    assert (ran.status, len(ran.out.splitlines())) == (0, 8)


def ends_at_once(_finder) -> None:
    """Begin a process that is killed, as by a system without memory."""
    os._exit(1)
