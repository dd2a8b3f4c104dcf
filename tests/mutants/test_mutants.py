"""The script that plants mistakes makes enough of them; the table names none that is not made."""

from __future__ import annotations

from tests.mutants.changes import engine_mutants, mutants_of
from tests.mutants.equivalent import EQUIVALENT, TABLE

TEXT = """
/* if (a < 1) */
static int f(int a, int b)
{
    if (a < b && !b) {
        g(a, b);
    }
    return 0;
}
"""


def changes_of(line: str) -> set[str]:
    return {mutant.after for mutant in mutants_of("f.c", TEXT) if mutant.before == line}


def test_comparisons_conditions_and_signs_are_changed() -> None:
    assert changes_of("if (a < b && !b) {") == {
        "if (a <= b && !b) {",
        "if (a < b || !b) {",
        "if (a < b && b) {",
        "if (!(a < b && !b)) {",
        "if (true) {",
        "if (false) {",
    }


def test_calls_are_dropped_and_their_arguments_swapped() -> None:
    assert changes_of("g(a, b);") == {";", "g(b, a);"}


def test_numbers_are_off_by_one_and_comments_are_left_alone() -> None:
    assert changes_of("return 0;") == {"return 1;"}
    assert changes_of("/* if (a < 1) */") == set()


def test_a_mutant_knows_its_function_and_differs_in_one_line() -> None:
    for mutant in mutants_of("f.c", TEXT):
        assert mutant.function == "f"
        lines = zip(TEXT.splitlines(), mutant.text.splitlines(), strict=True)
        differing = [n for n, (one, other) in enumerate(lines, 1) if one != other]
        assert differing == [mutant.line]


def test_the_engine_gives_a_thousand_and_the_same_ones_each_time() -> None:
    found = [mutant.key for mutant in engine_mutants()]
    assert len(found) > 1000
    assert found == [mutant.key for mutant in engine_mutants()]


def test_the_table_names_mutants_that_there_are_once_each() -> None:
    keys = [mutant.key for mutant in engine_mutants()]
    for row in EQUIVALENT:
        assert keys.count(row) == 1, row
    assert len(EQUIVALENT) == len(TABLE)
