"""A figure that can be followed: its value, its formula, and where each part of it comes from."""

from __future__ import annotations

from matrixgen.boards import DiodePart, Profile
from matrixgen.circuit.planned import Planned
from matrixgen.record import Record


class Source(Record):
    """Where a value comes from: what it is a value of, and the document or practice."""

    of: str
    text: str


class Input(Record, kw_only=True):
    """One value that a formula takes: what stands for it in the formula, and what it is.

    `value` is a number with its unit, or a word where there is no number; `source` is None where it
    is a figure of its own, or the file's.
    """

    symbol: str
    value: float | str
    unit: str
    says: str
    source: Source | None = None


class Figure(Input, kw_only=True):
    """A value that is told, with its formula and what that takes."""

    formula: str | None = None
    inputs: tuple[Input, ...] = ()


class Section(Record):
    """Figures that belong together."""

    title: str
    figures: tuple[Figure, ...]


def planned(symbol: str, unit: str, value: Planned) -> Input:
    """Return a planning value as an input."""
    return Input(
        symbol=symbol,
        value=value.value,
        unit=unit,
        says=value.meaning,
        source=Source(value.meaning, value.source),
    )


def of_profile(profile: Profile, group: str) -> Source:
    """Return where a group of a profile's figures comes from."""
    return Source(f"{profile.name}, {group}", dict(profile.sources).get(group, "not stated"))


def of_diode(diode: DiodePart, group: str) -> Source:
    """Return where a group of a diode's figures comes from."""
    return Source(f"{diode.name}, {group}", dict(diode.sources).get(group, "not stated"))


def supply_at_worst(volts: float, more: str = "") -> Input:
    """Return the supply as an input, and what else pulls up there."""
    return Input(symbol="V_CC", value=volts, unit="V", says="the supply, at its worst" + more)


def to_spare(symbol: str, margin: float, formula: str) -> Figure:
    """Return a margin in volts: what is missing where it is below zero."""
    says = "to spare" if margin >= 0 else "missing"
    return Figure(symbol=symbol, value=margin, unit="V", says=says, formula=formula)
