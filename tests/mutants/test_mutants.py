"""The script that plants mistakes makes enough of them; the table names none that is not made."""

from __future__ import annotations

import pytest

from tests.mutants.changes import engine_mutants, mutants_of
from tests.mutants.equivalent import EQUIVALENT, EQUIVALENT_IN_PORTS, PORTS_TABLE, TABLE
from tests.mutants.on_chip import benches
from tests.mutants.ports import PORTS, assembly_mutants, port_mutants

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


def test_the_ports_give_hundreds_and_the_same_ones_each_time() -> None:
    for port in PORTS:
        found = [mutant.key for mutant in port_mutants(port)]
        assert len(found) > 600
        assert found == [mutant.key for mutant in port_mutants(port)]


def test_instructions_are_left_out_of_assembly_and_operands_are_not() -> None:
    text = 'static void f(void)\n{\n    __asm__ volatile("cli\\n\\tmovs r2, #4" : "+w"(a));\n}\n'
    assert [mutant.after for mutant in assembly_mutants("f.c", text)] == [
        '__asm__ volatile("\\n\\tmovs r2, #4" : "+w"(a));',
        '__asm__ volatile("cli\\n\\t" : "+w"(a));',
        '__asm__ volatile("cli\\n\\tmovs r2, #2" : "+w"(a));',
    ]


def test_the_table_of_the_ports_names_mutants_that_there_are_once_each() -> None:
    keys = [mutant.key for port in PORTS for mutant in port_mutants(port)]
    for row in EQUIVALENT_IN_PORTS:
        assert keys.count(row) == 1, row
    assert len(EQUIVALENT_IN_PORTS) == len(PORTS_TABLE)


@pytest.mark.few(1)
@pytest.mark.parametrize("port", PORTS)
def test_a_port_s_mistakes_are_built_for_what_they_are_tried_on(port: str) -> None:
    """The trial itself is no part of the suite: what it begins with is."""
    plain = next(benches(port))
    assert plain.calls
    assert plain.built(None) is not None
    assert plain.built(port_mutants(port)[0]) is not None
