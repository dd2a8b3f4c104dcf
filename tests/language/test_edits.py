"""Edits change the places that they name and leave every other byte alone."""

import random

import pytest

from matrixgen.model import Edit, SourceText, Span
from matrixgen.source.edits import edited

TEXT = "plate\n  line A B\n  line C\n"


def edit(line, column, length, text):
    return Edit(Span.in_line("x", line, column, length), text)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_places_are_found_whatever_the_line_ends_and_new_lines_are_of_the_file_s_kind(end, mark):
    source = SourceText("x", mark + TEXT.replace("\n", end))
    new = edited(source, [edit(3, 8, 1, "D\n  line E"), edit(1, 1, 5, "Plate")])
    expected = "Plate\n  line A B\n  line D\n  line E\n"
    assert new == mark + expected.replace("\n", end)


def test_lines_are_taken_out_whole_the_last_one_too():
    source = SourceText("x", TEXT.rstrip("\n"))
    last = Edit.removing_lines(Span.in_line("x", 3, 3, 4))
    assert edited(source, [last]) == "plate\n  line A B\n"
    assert edited(source, [Edit.removing_lines(Span.in_line("x", 1, 1, 5))]) == (
        "  line A B\n  line C"
    )


def test_edits_that_overlap_are_none():
    source = SourceText("x", TEXT)
    assert edited(source, [edit(2, 3, 4, "x"), edit(2, 5, 4, "y")]) is None
    assert edited(source, [edit(2, 3, 4, "x"), edit(2, 7, 1, "")]) == TEXT.replace("line ", "x", 1)


@pytest.mark.parametrize("seed", range(50))
def test_an_edit_changes_what_a_slice_of_the_line_would(seed):
    chance = random.Random(seed)
    lines = ["".join(chance.choices("aé\t #日", k=chance.randrange(9))) for _ in range(6)]
    number = chance.randrange(6)
    line = lines[number]
    start = chance.randint(0, len(line))
    length = chance.randint(0, len(line) - start)
    text = "\r\n".join(lines)
    new = edited(SourceText("x", text), [edit(number + 1, start + 1, length, "XY")])
    lines[number] = line[:start] + "XY" + line[start + length :]
    assert new == "\r\n".join(lines)
