"""Which tests are handed out together: those that would start a browser or a chip once each."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from tests import parts


def handed_out(*nodeids: str, one_by_one: tuple[str, ...] = ()) -> list[str]:
    """Return the part that each test is in."""
    scheduler = object.__new__(parts.InParts)
    scheduler.config = SimpleNamespace()
    scheduler.collection, scheduler.one_by_one = list(nodeids), one_by_one
    return [scheduler._split_scope(nodeid) for nodeid in nodeids]


@pytest.mark.parametrize(
    "nodeids",
    [
        ("tests/browser/test_a.py::test_one[chromium]", "tests/browser/test_b.py::test_two"),
        ("tests/packaging/test_wheel.py::test_one", "tests/packaging/test_wheel.py::test_two"),
        (
            "tests/examples/test_every_key.py::test_one[heron-12-avr-gcc]",
            "tests/examples/test_every_key.py::test_two[heron-12-avr-gcc]",
        ),
        (
            "tests/firmware/test_engine_and_oracle.py::test_one[lone pointer-7]",
            "tests/firmware/test_engine_and_oracle.py::test_two[lone pointer]",
        ),
        ("tests/model/test_a.py::test_one", "tests/model/test_a.py::test_two"),
    ],
)
def test_they_are_one_worker_s(nodeids):
    long = ("tests/browser/", "tests/examples/", "tests/firmware/")
    assert len(set(handed_out(*nodeids, one_by_one=long))) == 1


def test_others_are_handed_out_alone_if_they_take_long_and_else_by_the_dozen():
    names = [f"tests/emulators/test_a.py::test_one[{n}]" for n in range(2 * parts.MANY)]
    assert len(set(handed_out(*names, one_by_one=("tests/emulators/",)))) == len(names)
    assert len(set(handed_out(*names))) == 2


def test_a_board_is_one_case_and_another_board_is_not():
    file = "tests/firmware/test_engine_and_oracle.py"
    assert len(set(handed_out(f"{file}::test_one[small-1]", f"{file}::test_one[huge-1]"))) == 2
