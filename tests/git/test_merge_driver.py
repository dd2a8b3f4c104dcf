"""The merge driver in real repositories: merges, rebases, cherry-picks, and what is left after."""

from __future__ import annotations

import shlex
import sys

import pytest

from tests.merge.test_cases import ADDED, BASE, edited

COMMAND = f"{shlex.quote(sys.executable)} -m matrixgen merge %O %A %B --path %P"


@pytest.fixture
def pad(repository):
    """A repository with one keyboard on `main`, whose merge driver is this checkout's."""
    repository("config", "merge.matrixgen.driver", COMMAND)
    (repository.folder / ".git" / "info" / "attributes").write_text("*.keys merge=matrixgen\n")
    repository.save("pad.keys", BASE, "The pad")
    return repository


def branches(pad, ours: str, theirs: str) -> None:
    """Commit `theirs` on a branch, and `ours` on `main`, which is left checked out."""
    pad("checkout", "-q", "-b", "theirs")
    pad.save("pad.keys", theirs, "Theirs")
    pad("checkout", "-q", "main")
    pad.save("pad.keys", ours, "Ours")


def test_changes_on_one_line_that_git_cannot_merge_are_merged(pad):
    ours, theirs = edited(("K1 = hold", "K1 = latch")), edited(("K2 = copy", "K2 = Tab"))
    branches(pad, ours, theirs)
    attributes = pad.folder / ".git" / "info" / "attributes"
    attributes.rename(attributes.with_name("off"))
    assert "CONFLICT" in pad("merge", "--no-edit", "theirs", fails=True)
    pad("merge", "--abort")
    attributes.with_name("off").rename(attributes)
    pad("merge", "-q", "--no-edit", "theirs")
    assert "  K1 = latch layer nav  K2 = Tab\n" in pad.read("pad.keys")
    assert pad("status", "--porcelain") == ""


def test_a_renamed_key_and_its_cells(pad):
    branches(pad, edited(("K1", "Fn")), edited(("1 ~ 3", "1 2 3"), ("K1 = hold", "K1 = latch")))
    pad("merge", "-q", "--no-edit", "theirs")
    text = pad.read("pad.keys")
    assert "  Fn = latch layer nav  K2 = copy\n" in text and "  1 2 3\n" in text
    assert "K1" not in text.replace("PD1  Fn", "")


def test_one_side_spaced_anew(pad):
    branches(
        pad, BASE.replace("  ", "\t\t").replace("\n", "\r\n"), edited(("K2 = copy", "K2 = Tab"))
    )
    pad("merge", "-q", "--no-edit", "theirs")
    assert "\t\tK1 = hold layer nav\t\tK2 = Tab\r\n" in pad.read("pad.keys")


def test_keys_added_at_different_places_and_at_the_same_place(pad):
    apart = edited(("K1 K2 K3", "K1 K2 K3 Del"), ("K1 to K3", "K1 to Del"), ("B K2", "B K2 Del"))
    branches(pad, edited(*ADDED), apart.replace("~ 5 6", "~ 5 6 ~"))
    pad("merge", "-q", "--no-edit", "theirs")
    assert "  line A B Ins C   # first\n  line K1 K2 K3 Del\n" in pad.read("pad.keys")
    pad("reset", "-q", "--hard", "HEAD~1")
    pad("checkout", "-q", "-B", "theirs", "main~1")
    pad.write(
        "pad.keys", edited(("A B C ", "A B Del C "), ("1 ~ 3", "1 ~ ~ 3"), ("B K2", "B K2 Del"))
    )
    pad.commit()
    pad("checkout", "-q", "main")
    said = pad("merge", "--no-edit", "theirs", fails=True)
    assert "pad.keys: conflict: key Ins on the plate, key Del on the plate" in said
    assert "CONFLICT (content): Merge conflict in pad.keys" in said
    assert pad("diff", "--name-only", "--diff-filter=U").split() == ["pad.keys"]


def test_what_a_conflict_leaves_is_explained_by_check(pad, program):
    branches(pad, edited(("5 ms", "6 ms")), edited(("5 ms", "7 ms")))
    pad("merge", "--no-edit", "theirs", fails=True)
    ran = program("check", "pad.keys")
    assert ran.status == 1
    assert "pad.keys:4:1: error[merge-conflict]: both sides changed debounce" in ran.out
    assert ran.out.count("error[") == 1


def test_a_rebase_and_a_cherry_pick(pad):
    branches(pad, edited(("K1 = hold", "K1 = latch")), edited(("K2 = copy", "K2 = Tab")))
    both = "  K1 = latch layer nav  K2 = Tab\n"
    pad("checkout", "-q", "-b", "picked")
    pad("cherry-pick", "theirs")
    assert both in pad.read("pad.keys")
    pad("checkout", "-q", "theirs")
    pad("rebase", "-q", "main")
    assert both in pad.read("pad.keys")
    assert pad("log", "--format=%s").split("\n")[:2] == ["Theirs", "Ours"]


def test_a_stash_is_put_back(pad):
    pad.write("pad.keys", edited(("K2 = copy", "K2 = Tab")))
    pad("stash", "-q")
    pad.save("pad.keys", edited(("K1 = hold", "K1 = latch")))
    pad("stash", "pop", "-q")
    assert "  K1 = latch layer nav  K2 = Tab\n" in pad.read("pad.keys")


def test_a_criss_cross(pad):
    """Two merge bases that conflict with each other: git merges them first."""
    branches(pad, edited(("5 ms", "6 ms")), edited(("5 ms", "7 ms")))
    for branch, other, value, cell in (
        ("main", "theirs", "6", "1"),
        ("theirs", "main~1", "6", "2"),
    ):
        pad("checkout", "-q", branch)
        pad("merge", "--no-edit", other, fails=True)
        pad.save(
            "pad.keys",
            edited(("5 ms", f"{value} ms"), (f"K{cell} = ", f"K{cell} =  ")),
            f"Merged on {branch}",
        )
    pad("checkout", "-q", "main")
    assert len(pad("merge-base", "--all", "main", "theirs").split()) == 2
    pad.save("pad.keys", pad.read("pad.keys").replace("1 ~ 3", "1 2 3"))
    pad("merge", "-q", "--no-edit", "theirs")
    assert "debounce 6 ms" in pad.read("pad.keys") and "  1 2 3\n" in pad.read("pad.keys")


def test_a_side_that_does_not_read_is_merged_by_git_as_text(pad):
    branches(pad, edited(("plate\n", "plat\n")), edited(("K3 = Esc", "K3 = Tab")))
    said = pad("merge", "--no-edit", "theirs", fails=True)
    assert "pad.keys: merged line by line: line 6 of our version cannot be read" in said
    text = pad.read("pad.keys")
    assert "plat\n" in text and "K3 = Tab" in text and "<<<<" not in text


def test_text_that_is_no_text_is_merged_by_git(pad):
    latin = BASE.encode().replace(b"# top", b"# t\xf6p")
    branches(pad, latin, edited(("K3 = Esc", "K3 = Tab")))
    pad("merge", "--no-edit", "theirs")
    data = (pad.folder / "pad.keys").read_bytes()
    assert b"# t\xf6p" in data and b"K3 = Tab" in data


def test_a_merge_that_fits_no_more_is_left_to_the_person(pad):
    """Both sides take the same spare pin: no conflict, and yet no keyboard."""
    one = edited(("C K3", "C"), ("PB2  C", "PB2  C\n  column c3 on PB3  K3"))
    two = edited(("B K2", "B"), ("PB1  B", "PB1  B\n  column c4 on PB3  K2"))
    branches(pad, one, two)
    said = pad("merge", "--no-edit", "theirs", fails=True)
    assert "error[pin-used-twice]" in said
    assert "pad.keys: merged, with 1 error that neither side has" in said
    text = pad.read("pad.keys")
    assert "column c3 on PB3  K3" in text and "column c4 on PB3  K2" in text


def test_by_hand_three_files_are_merged_to_a_third_or_over_ours(program):
    program.write("base.keys", BASE)
    program.write("ours.keys", edited(("5 ms", "6 ms")))
    program.write("theirs.keys", edited(("K3 = Esc", "K3 = Tab")))
    ran = program("merge", "base.keys", "ours.keys", "theirs.keys", "-o", "out.keys")
    assert (ran.status, ran.out, ran.err) == (0, "", "")
    both = edited(("5 ms", "6 ms"), ("K3 = Esc", "K3 = Tab"))
    assert (program.folder / "out.keys").read_text() == both
    assert (program.folder / "ours.keys").read_text() != both
    assert program("merge", "base.keys", "ours.keys", "theirs.keys").status == 0
    assert (program.folder / "ours.keys").read_text() == both


def test_a_file_that_is_not_there_changes_nothing(program):
    program.write("ours.keys", BASE)
    ran = program("merge", "gone.keys", "ours.keys", "ours.keys")
    assert ran.status == 2 and ran.err.startswith("matrixgen: `gone.keys` cannot be read: no such")
    ran = program("merge", "ours.keys", "ours.keys", "ours.keys", "-o", "no/such/out.keys")
    assert ran.status == 2 and "cannot be written" in ran.err
    assert (program.folder / "ours.keys").read_text() == BASE


def test_a_mistake_of_the_merge_itself_loses_nothing(program, monkeypatch):
    monkeypatch.setattr("matrixgen.jobs.merge.merge", lambda *_: 1 / 0)
    program.write("base.keys", BASE)
    program.write("ours.keys", edited(("5 ms", "6 ms")))
    program.write("theirs.keys", edited(("K3 = Esc", "K3 = Tab")))
    ran = program("merge", "base.keys", "ours.keys", "theirs.keys")
    assert ran.status == 0 and "an error of its own: ZeroDivisionError" in ran.err
    assert "debounce 6 ms" in (program.folder / "ours.keys").read_text()
    assert "K3 = Tab" in (program.folder / "ours.keys").read_text()


def test_git_merges_several_branches_at_once_by_lines_and_one_after_the_other_with_us(pad):
    """As the README says of an octopus merge: git asks no merge driver in one."""
    edits = {"latching": ("K1 = hold", "K1 = latch"), "tabbing": ("K2 = copy", "K2 = Tab")}
    for name, edit in edits.items():
        pad("checkout", "-q", "-b", name, "main")
        pad.save("pad.keys", edited(edit), name)
    pad("checkout", "-q", "main")
    pad.save("other.txt", "something", "Ours")
    before = pad("rev-parse", "HEAD")
    assert "content conflict in pad.keys" in pad("merge", "--no-edit", *edits, fails=True)
    pad("reset", "-q", "--hard")
    assert pad("rev-parse", "HEAD") == before
    for name in edits:
        pad("merge", "-q", "--no-edit", name)
    assert "  K1 = latch layer nav  K2 = Tab\n" in pad.read("pad.keys")
