"""Matrices for the circuit's tests: made by hand, and at random with mixed exceptions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from random import Random

from matrixgen.model import Axis, Contact, Diode, Line, Matrix, Span, Word

NOWHERE = Span.in_line("made.keys", 1, 1, 1)
DIODES: tuple[Diode, ...] = ("toward", "away", "none")


def line(axis: Axis, name: str, keys: Sequence[str] = ()) -> Line:
    visits = tuple(Word(key, NOWHERE) for key in keys)
    return Line(axis=axis, name=Word(name, NOWHERE), colour=None, visits=visits, span=NOWHERE)


def matrix(contacts: Mapping[tuple[int, int], Diode]) -> Matrix:
    """Return a matrix of driven columns and sensed rows, with keys named after their crossing."""
    found = [
        Contact(f"k{drive}{sense}", drive, sense, diode)
        for (drive, sense), diode in sorted(contacts.items(), key=lambda item: item[0])
    ]
    drives = 1 + max(one.drive for one in found)
    senses = 1 + max(one.sense for one in found)
    return Matrix(
        tuple(
            line("column", f"c{n}", [one.key for one in found if one.drive == n])
            for n in range(drives)
        ),
        tuple(
            line("row", f"r{n}", [one.key for one in found if one.sense == n])
            for n in range(senses)
        ),
        tuple(found),
    )


def random_matrix(chance: Random, most_keys: int, side: int = 5) -> Matrix:
    """Return a matrix of up to `side` x `side` lines with every kind of diode."""
    drives, senses = chance.randint(2, side), chance.randint(2, side)
    places = [(drive, sense) for drive in range(drives) for sense in range(senses)]
    chosen = chance.sample(places, min(len(places), chance.randint(3, most_keys)))
    weights = chance.choice([(4, 1, 2), (1, 0, 3), (0, 0, 1), (3, 2, 3), (6, 0, 1)])
    kinds = chance.choices(DIODES, weights, k=len(chosen))
    return matrix(dict(zip(chosen, kinds, strict=True)))
