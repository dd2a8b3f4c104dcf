"""The voltage of every line while one driven line is low and some keys are pressed.

Kirchhoff's current law at each line: what its pull-up brings in flows out through its keys and, at
the driven line, through the pin that pulls it low. Diodes follow their forward curve, so that the
equations are solved by Newton's method, in small steps.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log

from matrixgen.boards.diode_part import ForwardDrop
from matrixgen.model import Contact
from matrixgen.record import Record

LARGEST_STEP = 0.25
"""Volts that a line may move in one step: a diode's current grows tenfold in less."""

EXACT_VOLTS = 1e-9
EXACT_LOGARITHM = 1e-12
MOST_STEPS = 400
LEAK_SIEMENS = 1e-12
"""What a blocking diode is taken to conduct, so that no line is cut off from all others."""


class Circuit(Record, kw_only=True):
    """What is at the lines of a matrix: pull-ups in ohms, one a line; all else is alike for all.

    `switch_ohm` is a closed switch with its piece of wire, `driver_ohm` the pin that pulls low. The
    diode of the keys that have one drops `drop`.
    """

    supply_volts: float
    driver_ohm: float
    switch_ohm: float
    drive_pull_ohm: tuple[float, ...]
    sense_pull_ohm: tuple[float, ...]
    drop: ForwardDrop


class Volts(Record):
    """The voltage of each driven and each sensed line."""

    drives: tuple[float, ...]
    senses: tuple[float, ...]


def volts(circuit: Circuit, pressed: Sequence[Contact], drive: int) -> Volts:
    """Return the voltages while the driven line number `drive` is low; exact to a nanovolt.

    Raises ArithmeticError if they were not found, which no circuit of positive resistances does.
    """
    solver = _Solver(circuit, pressed, drive)
    found = solver.solve()
    split = len(circuit.drive_pull_ohm)
    return Volts(tuple(found[:split]), tuple(found[split:]))


class _Solver:
    """Node n is driven line n, and sensed lines come after the driven ones."""

    def __init__(self, circuit: Circuit, pressed: Sequence[Contact], drive: int) -> None:
        self._circuit = circuit
        self._pulls = (*circuit.drive_pull_ohm, *circuit.sense_pull_ohm)
        self._driven = drive
        first = len(circuit.drive_pull_ohm)
        self._bare = [(one.drive, first + one.sense) for one in pressed if one.diode == "none"]
        self._diodes = [
            (first + one.sense, one.drive)
            if one.diode == "toward"
            else (one.drive, first + one.sense)
            for one in pressed
            if one.diode != "none"
        ]

    def solve(self) -> list[float]:
        volts = [self._circuit.supply_volts] * len(self._pulls)
        volts[self._driven] = 0.0
        for _ in range(MOST_STEPS):
            currents, slopes = self._balance(volts)
            step = solved(slopes, currents)
            largest = max(map(abs, step))
            share = min(1.0, LARGEST_STEP / largest) if largest else 1.0
            volts = [old - share * move for old, move in zip(volts, step, strict=True)]
            if largest < EXACT_VOLTS:
                return volts
        raise ArithmeticError("the voltages of the matrix were not found")

    def _balance(self, volts: list[float]) -> tuple[list[float], list[list[float]]]:
        """Return the current that is left over at each line, and how it changes with the volts."""
        size = len(volts)
        left = [0.0] * size
        slopes = [[0.0] * size for _ in range(size)]
        for node, ohm in enumerate(self._pulls):
            left[node] += (volts[node] - self._circuit.supply_volts) / ohm
            slopes[node][node] += 1 / ohm
        left[self._driven] += volts[self._driven] / self._circuit.driver_ohm
        slopes[self._driven][self._driven] += 1 / self._circuit.driver_ohm
        for start, end in self._bare:
            siemens = 1 / self._circuit.switch_ohm
            _add(left, slopes, start, end, (volts[start] - volts[end]) * siemens, siemens)
        for start, end in self._diodes:
            _add(left, slopes, start, end, *self._through(volts[start] - volts[end]))
        return left, slopes

    def _through(self, across: float) -> tuple[float, float]:
        """Return the current through a diode and its switch, and its slope in siemens.

        The curve is drawn on a logarithmic scale, where 0 V still have some current; less that,
        as in Shockley's equation, the current is none at 0 V.
        """
        drop, ohm = self._circuit.drop, self._circuit.switch_ohm
        leak = across * LEAK_SIEMENS
        if across <= 0:
            return leak, LEAK_SIEMENS
        ampere = ampere_through(drop, ohm, across)
        return ampere - drop.ampere(0) + leak, 1 / (ohm + drop.ohm(ampere)) + LEAK_SIEMENS


def ampere_through(drop: ForwardDrop, ohm: float, across: float) -> float:
    """Return the current in amperes at which a diode and a resistor share the volts `across`.

    By Newton's method on the logarithm of the current, from what the resistor alone would let
    through, and what the curve has at 0 V: the sum of both voltages grows and bends upwards.
    """
    at = log(across / ohm + drop.ampere(0))
    for _ in range(MOST_STEPS):
        ampere = exp(at)
        step = (drop.volts(ampere) + ohm * ampere - across) / (ampere * (drop.ohm(ampere) + ohm))
        at -= step
        if abs(step) < EXACT_LOGARITHM:
            break
    return exp(at)


def _add(
    left: list[float], slopes: list[list[float]], start: int, end: int, ampere: float, slope: float
) -> None:
    left[start] += ampere
    left[end] -= ampere
    slopes[start][start] += slope
    slopes[end][end] += slope
    slopes[start][end] -= slope
    slopes[end][start] -= slope


def solved(matrix: list[list[float]], right: list[float]) -> list[float]:
    """Return x with matrix * x = right, by Gaussian elimination; the matrix is changed.

    Pivots need no search: the matrix of a network is symmetric and diagonally dominant.
    """
    size = len(right)
    answer = list(right)
    for pivot in range(size):
        row = matrix[pivot]
        for below in range(pivot + 1, size):
            factor = matrix[below][pivot] / row[pivot]
            if factor:
                matrix[below] = [a - factor * b for a, b in zip(matrix[below], row, strict=True)]
                answer[below] -= factor * answer[pivot]
    for place in reversed(range(size)):
        row = matrix[place]
        rest = sum(row[other] * answer[other] for other in range(place + 1, size))
        answer[place] = (answer[place] - rest) / row[place]
    return answer
