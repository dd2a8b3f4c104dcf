"""Frozen records: what `@dataclass(frozen=True)` gives the model, in a tenth of the start-up time.

A dataclass costs a millisecond each time a program starts, because each of its methods is compiled
by itself; the model has two dozen classes, and `matrixgen check` has to feel immediate. A record's
methods are compiled at once. To a reader and to a type checker it is a frozen dataclass.
"""

from __future__ import annotations

from typing import Any, TypeVar, dataclass_transform

R = TypeVar("R")


@dataclass_transform(frozen_default=True)
def record(cls: type[R]) -> type[R]:
    """Make a class with annotated fields a frozen record: compared, hashed and shown by them."""
    names = list(cls.__annotations__)
    defaults = {f"_{name}": cls.__dict__[name] for name in names if name in cls.__dict__}
    takes = ", ".join(f"{name}=_{name}" if f"_{name}" in defaults else name for name in names)
    keeps = "; ".join(f"kept[{name!r}] = {name}" for name in names)
    mine = "".join(f"self.{name}, " for name in names)
    methods: dict[str, Any] = {}
    exec(  # the text is made of the field names above and nothing else
        f"def __init__(self, {takes}): kept = self.__dict__; {keeps or 'pass'}\n"
        f"def __eq__(self, other):\n"
        f"    if other.__class__ is not self.__class__: return NotImplemented\n"
        f"    return ({mine}) == ({mine.replace('self.', 'other.')})\n"
        f"def __hash__(self): return hash(({mine}))\n",
        defaults,
        methods,
    )
    for name, method in methods.items():
        method.__qualname__ = f"{cls.__qualname__}.{name}"
        setattr(cls, name, method)
    cls.__repr__ = _shown  # type: ignore[method-assign]
    cls.__setattr__ = _refuse  # type: ignore[method-assign]
    cls.__delattr__ = _refuse  # type: ignore[method-assign]
    setattr(cls, "__match_args__", tuple(names))  # noqa: B010 - a checker thinks it is there
    return cls


def changed(old: R, **fields: Any) -> R:
    """Return a copy of a record in which the named fields have other values."""
    names: tuple[str, ...] = type(old).__match_args__  # type: ignore[attr-defined]
    return type(old)(**{name: getattr(old, name) for name in names} | fields)


def _shown(self: object) -> str:
    names: tuple[str, ...] = type(self).__match_args__  # type: ignore[attr-defined]
    return f"{type(self).__name__}({', '.join(f'{n}={getattr(self, n)!r}' for n in names)})"


def _refuse(self: object, name: str, value: object = None) -> None:
    raise AttributeError(f"a {type(self).__name__} never changes, nor does its `{name}`")
