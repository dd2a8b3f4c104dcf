"""Conflict markers in a file: each conflict is told of once, and nothing else is."""

from __future__ import annotations

import pytest

from matrixgen.source import read_design
from tests.language.whole import WHOLE, completed

HERE = "layer base\n  A = Tab\n"


def found_in(text: str) -> list[tuple[str, int, str]]:
    design, found = read_design("pad.keys", text)
    assert design is None or not found
    return [(one.slug, one.span.line, one.message) for one in found]


def conflict(label: str = "ours: key A on layer base", old: str = "") -> str:
    return f"<<<<<<< {label}\n  A = 1\n{old}=======\n  A = nonsense + 2\n>>>>>>> theirs\n"


def test_a_conflict_is_told_of_at_its_first_line_and_no_line_in_it_is():
    text = completed("layer base\n" + conflict())
    line = text.splitlines().index("<<<<<<< ours: key A on layer base") + 1
    said = "both sides changed key A on layer base, and it is not decided which version counts"
    assert found_in(text) == [("merge-conflict", line, said)]
    _, (found,) = read_design("pad.keys", text)
    assert found.helps[0].startswith(f"keep what is right in lines {line} to {line + 4}, and")
    assert [note.span.line for note in found.notes] == [line + 2]


def test_a_conflict_of_git_s_is_one_too_with_the_common_version_or_without():
    for old in ("", "||||||| 1a2b3c\n  A = 0\n"):
        ((slug, _, said),) = found_in(completed("layer base\n" + conflict("HEAD", old)))
        assert slug == "merge-conflict" and said.startswith("two versions were merged")


def test_each_conflict_is_told_of_once():
    text = completed("layer base\n" + conflict() + conflict("ours: wire c0"))
    assert [slug for slug, _, _ in found_in(text)] == ["merge-conflict"] * 2


@pytest.mark.parametrize("marker", ["<<<<<<< ours", "=======", ">>>>>>> theirs", "|||||||"])
def test_a_marker_that_was_left_over_is_told_of(marker):
    ((slug, line, said),) = found_in(f"{WHOLE}{marker}\n")
    assert (slug, line) == ("merge-conflict", WHOLE.count("\n") + 1)
    assert said == f"`{marker[:7]}` is left over from the conflict of a merge"


def test_a_conflict_that_never_ends_is_left_over_markers():
    found = found_in(completed("layer base\n<<<<<<< ours\n  A = 1\n=======\n  A = 2\n"))
    assert [slug for slug, _, _ in found] == ["merge-conflict"] * 2


def test_a_start_without_an_end_does_not_hide_the_next_conflict():
    found = found_in(completed("layer base\n<<<<<<< ours\n" + conflict()))
    assert [said.split(" ")[0] for _, _, said in found] == ["`<<<<<<<`", "both"]


@pytest.mark.parametrize("line", ["# =======", "#<<<<<<< ours", "  # >>>>>>> x"])
def test_a_comment_is_no_marker(line):
    assert found_in(completed(f"{HERE}{line}\n")) == []


@pytest.mark.parametrize("line", ["========", "<<<<<<<x", "  ======="])
def test_what_only_looks_like_a_marker_is_none(line):
    assert "merge-conflict" not in [slug for slug, _, _ in found_in(completed(f"{HERE}{line}\n"))]


def test_line_ends_of_any_system_make_no_difference():
    text = completed("layer base\n" + conflict())
    for end in ("\r\n", "\r"):
        assert found_in("\ufeff" + text.replace("\n", end)) == found_in(text)
