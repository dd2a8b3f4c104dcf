"""Every field of the model says which work its change asks for, and is part of a meaning."""

from __future__ import annotations

import pytest

from matrixgen.model import Design, Keyboard, SourceText
from matrixgen.model.actions import Behaviour
from matrixgen.model.meaning import INSTEAD, meaning_of
from matrixgen.model.work import WORKS, Derived, Reflash, Spelling, fields_of
from matrixgen.record import Record, changed
from matrixgen.source import design_of
from tests.language.test_meaning import FULL


def records_in(value, found):
    """The kinds of records that a file is made of, actions aside."""
    if isinstance(value, Behaviour) or type(value) in found:
        return found
    if isinstance(value, Record):
        if any(field.is_said for field in fields_of(type(value))):
            found.add(type(value))
        for field in fields_of(type(value)):
            if field.kind not in ("Span", "Word", "Number"):
                records_in(getattr(value, field.name), found)
    elif isinstance(value, tuple):
        for one in value:
            records_in(one, found)
    return found


DESIGN, _ = design_of(SourceText("pad.keys", FULL))
PLAIN = {"Word", "Number", "Span", "SourceText", "Mirror"}
RECORDS = sorted(
    (one for one in records_in(DESIGN, set()) if one.__name__ not in PLAIN),
    key=lambda one: one.__name__,
)
FIELDS = [(record, field) for record in RECORDS for field in fields_of(record)]


def test_all_records_of_a_file_are_seen():
    names = {record.__name__ for record in RECORDS}
    assert {"Design", "Keyboard", "Key", "Hole", "Area", "Line", "Layer", "Cell"} <= names


def is_part(record, field):
    """Whether a field is a record, or several, whose own fields are classified."""
    return any(kind.__name__ in field.kind for kind in RECORDS if kind is not record)


@pytest.mark.parametrize(
    ("record", "field"), FIELDS, ids=lambda one: getattr(one, "__name__", None) or one.name
)
def test_a_field_says_its_work_or_why_it_has_none(record, field):
    assert field.work or not field.is_said or is_part(record, field), (
        f"{record.__name__}.{field.name}: mark it in the model with one of matrixgen/model/work.py"
    )


def test_a_field_that_nobody_classified_would_be_seen():
    class Wire(Record):
        gauge: float

    (field,) = fields_of(Wire)
    assert not (field.work or not field.is_said or is_part(Wire, field))


def test_what_is_replaced_in_a_meaning_is_a_field():
    for record, (replaced, _) in INSTEAD.items():
        assert set(replaced) <= {field.name for field in fields_of(record)}


class Versioned(Keyboard, kw_only=True):
    """A keyboard with a setting that only the model knows."""

    version: Reflash[str | None] = None


def with_version(version):
    fields = {name: getattr(DESIGN.keyboard, name) for name in Keyboard.__match_args__}
    return changed(DESIGN, keyboard=Versioned(**fields, version=version))


def test_a_setting_that_only_the_model_knows_is_part_of_the_meaning():
    assert meaning_of(with_version("1.2")) != meaning_of(with_version("1.3"))
    assert meaning_of(with_version("1.2")) == meaning_of(with_version("1.2"))


def test_marks_are_read_from_the_inside_out():
    class Marked(Record):
        one: Reflash[Derived[str | None]]
        two: Spelling[bool]

    one, two = fields_of(Marked)
    assert (one.work, one.kind, one.is_said) == ("reflash", "str | None", False)
    assert (two.work, two.is_said) == (None, False)
    assert set(WORKS) >= {one.work}
    assert Design in RECORDS
