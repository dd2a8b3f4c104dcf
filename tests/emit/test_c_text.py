"""Tables in C that a person can read."""

from __future__ import annotations

from matrixgen.emit.c_text import in_columns


def test_cells_and_comments_stand_in_columns() -> None:
    rows = "    {1, 200, 6}, /* tap A */\n    {12, 5, 60}, /* tap B, {odd}, hold C */\n"
    assert in_columns(rows) == (
        "    {1,  200, 6},  /* tap A */\n    {12, 5,   60}, /* tap B, {odd}, hold C */\n"
    )


def test_a_table_of_single_values_and_one_without_comments_are_rows_too() -> None:
    assert in_columns("  1u << 9, /* a */\n  1u << 10, /* b */\n") == (
        "  1u << 9,  /* a */\n  1u << 10, /* b */\n"
    )
    assert in_columns("    1, 2,\n") == "    1, 2,\n"
