"""Frozen records: the base class of all that a check loads.

A dataclass compiles its methods for each class anew at every start of the program: for thirty
classes as long as an empty Python process takes in all. Here they are written once, and a class
costs a look at its annotations. To a reader and to a type checker a record is a frozen dataclass.

`msgspec` was measured instead, in CPU time of whole processes: 160 such classes cost 8 ms here and
19 ms as its structs, 15 of them for its import; making a record costs 1.5 us less there. A check of
100 keys makes 5,000, so that it would be slower for them, and needs one package more.

What changes while it lives is no record, but a plain class or a dataclass that is not frozen.
"""

from __future__ import annotations

from typing import Any, ClassVar, NoReturn, TypeVar, dataclass_transform

R = TypeVar("R", bound="Record")


@dataclass_transform(frozen_default=True)
class Record:
    """A class with annotated fields: made, compared, hashed and shown by them, never changed.

    With `kw_only` its fields are given by name alone, as those of every record of more than four
    fields are.
    """

    __match_args__: ClassVar[tuple[str, ...]] = ()
    kinds: ClassVar[dict[str, str]] = {}
    """The fields' annotations, by name, in the fields' order."""

    _names: ClassVar[frozenset[str]] = frozenset()
    _defaults: ClassVar[dict[str, Any]] = {}
    _places: ClassVar[int] = 0

    def __init_subclass__(cls, *, kw_only: bool = False) -> None:
        own = [name for name, kind in cls.__annotations__.items() if "ClassVar" not in str(kind)]
        cls.__match_args__ = (*cls.__match_args__, *own)  # type: ignore[misc]  # not a checker's
        cls.kinds = cls.kinds | {name: str(cls.__annotations__[name]) for name in own}
        cls._names = frozenset(cls.__match_args__)
        cls._defaults = cls._defaults | {n: cls.__dict__[n] for n in own if n in cls.__dict__}
        cls._places = -1 if kw_only or cls._places < 0 else len(cls.__match_args__)

    def __init__(self, *values: Any, **named: Any) -> None:
        if not values and named.keys() == self._names:
            self.__dict__.update(named)
        elif not named and len(values) == self._places:
            self.__dict__.update(zip(self.__match_args__, values, strict=True))
        else:
            self.__dict__.update(self._sorted_out(values, named))

    def _sorted_out(self, values: tuple[Any, ...], named: dict[str, Any]) -> dict[str, Any]:
        """Return the fields by name, with the defaults of those not given; refuse any others."""
        by_place = dict(zip(self.__match_args__, values, strict=False))
        given = self._defaults | by_place | named
        too_many = bool(values) and len(values) > self._places
        if too_many or by_place.keys() & named or given.keys() != self._names:
            raise TypeError(f"these are not the fields of {type(self).__name__}: {sorted(given)}")
        return given

    def _values(self) -> tuple[Any, ...]:
        kept = self.__dict__
        return tuple([kept[name] for name in self.__match_args__])

    def __eq__(self, other: object) -> bool:
        if type(other) is not type(self):
            return NotImplemented
        if other is self:
            return True
        mine, its = self.__dict__, other.__dict__
        return all(mine[name] == its[name] for name in self.__match_args__)

    def __hash__(self) -> int:
        return hash(self._values())

    def __repr__(self) -> str:
        shown = (
            f"{name}={value!r}"
            for name, value in zip(self.__match_args__, self._values(), strict=True)
        )
        return f"{type(self).__name__}({', '.join(shown)})"

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"a {type(self).__name__} never changes, nor does its `{name}`")

    def __delattr__(self, name: str) -> NoReturn:
        raise AttributeError(f"a {type(self).__name__} never changes, nor does its `{name}`")


def changed(old: R, **fields: Any) -> R:
    """Return a copy of a record in which the named fields have other values."""
    return type(old)(**values_of(old, *old.__match_args__) | fields)


def values_of(record: object, *names: str) -> dict[str, Any]:
    """Return what a record has under some names, be they of its fields or properties."""
    return {name: getattr(record, name) for name in names}
