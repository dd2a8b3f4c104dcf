"""Frozen records: made, compared and changed as a frozen dataclass would be."""

import inspect
from pathlib import Path

import pytest

import matrixgen
from matrixgen import model
from matrixgen.boards import profile
from matrixgen.record import Record, changed


class Place(Record):
    x: int
    y: int = 7


class Wide(Record, kw_only=True):
    a: int
    b: int
    c: int = 3


class Wider(Wide):
    d: int = 4


def test_fields_are_given_by_place_or_by_name_and_defaults_filled_in():
    assert Place(1) == Place(1, 7) == Place(x=1) == Place(1, y=7)
    assert Wide(a=1, b=2) == Wide(a=1, b=2, c=3)
    assert Wider(a=1, b=2) == Wider(a=1, b=2, c=3, d=4)
    assert repr(Place(1)) == "Place(x=1, y=7)"


@pytest.mark.parametrize(
    "make",
    [
        lambda: Place(),
        lambda: Place(1, 2, 3),
        lambda: Place(1, x=1),
        lambda: Place(1, z=1),
        lambda: Wide(1, b=2),
        lambda: Wide(a=1),
        lambda: Wider(1, 2, 3, 4),
    ],
)
def test_other_fields_are_refused(make):
    with pytest.raises(TypeError):
        make()


def test_a_record_never_changes_and_a_copy_may_differ():
    place = Place(1, 2)
    with pytest.raises(AttributeError):
        place.x = 3
    with pytest.raises(AttributeError):
        del place.x
    assert changed(place, y=3) == Place(1, 3)
    assert place == Place(1, 2)
    assert len({place, Place(1, 2), Place(2, 1)}) == 2
    assert place != (1, 2)


def test_records_that_need_more_than_four_fields_are_made_by_name():
    records = [
        value
        for module in (model, profile)
        for _, value in inspect.getmembers(module, inspect.isclass)
        if issubclass(value, Record)
    ]
    assert len(records) > 25
    for record in records:
        needed = [field for field in record.__match_args__ if not hasattr(record, field)]
        assert len(needed) <= 4 or record._places < 0, record


def test_what_is_frozen_is_a_record_and_no_dataclass():
    files = Path(matrixgen.__file__).parent.rglob("*.py")
    frozen = [path.name for path in files if "@dataclass(frozen" in path.read_text("utf-8")]
    assert frozen == []
