"""What stands at a field of the model: which work its change asks for, or that it means nothing.

`meaning.py` and `compare/` read this off the annotations; there is no other list of fields. A field
whose kind is a place (`Span`) says where something stands, and `Span | None` whether it is said.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Annotated, Literal, TypeVar

from matrixgen.record import Record

T = TypeVar("T")

Work = Literal["solder", "reflash", "cosmetic"]

WORKS: tuple[Work, ...] = ("solder", "reflash", "cosmetic")
"""What a change asks for, the most work first.

`solder`: something on the bench changes, the plate, a wire, a diode, a pin. `reflash`: only the
image does. `cosmetic`: neither, so nothing has to be done.
"""

Solder = Annotated[T, "solder"]
Reflash = Annotated[T, "reflash"]
Cosmetic = Annotated[T, "cosmetic"]

AnyOrder = tuple[T, ...]
"""Several whose order says nothing."""

Spelling = Annotated[T, "spelling"]
"""How something is written, not what it says."""

Derived = Annotated[T, "derived"]
"""What follows from other fields, so that it says nothing of its own."""

MARK = re.compile(r"(Solder|Reflash|Cosmetic|AnyOrder|Spelling|Derived)\[(.*)\]", re.DOTALL)

PLACES = ("Span", "tuple[Span, ...]")


class Field(Record):
    """A field's name, its kind without marks, and the marks, in lower case."""

    name: str
    kind: str
    marks: frozenset[str]

    @property
    def work(self) -> Work | None:
        """The work that its change asks for, if that is said at the field."""
        return next((work for work in WORKS if work in self.marks), None)

    @property
    def is_said(self) -> bool:
        """Whether it is part of what a file says."""
        return self.kind not in PLACES and not self.marks & {"spelling", "derived"}


@cache
def fields_of(record: type) -> tuple[Field, ...]:
    """Return the fields of a kind of `Record`, in their order."""
    assert issubclass(record, Record)
    return tuple(_field(name, kind) for name, kind in record.kinds.items())


def _field(name: str, kind: str) -> Field:
    marks = []
    while found := MARK.fullmatch(kind):
        marks.append(found[1].lower())
        kind = found[2]
    return Field(name, kind, frozenset(marks))


def work_of(record: type, name: str) -> Work:
    """Return the work that changing a field asks for, which must be said at it."""
    (field,) = (one for one in fields_of(record) if one.name == name)
    assert field.work, f"nothing says what work {record.__name__}.{name} is"
    return field.work
