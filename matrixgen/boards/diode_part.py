"""What the electrical checks know of a diode."""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise
from math import exp, log

from matrixgen.model.text import Word
from matrixgen.record import Record

AT_CELSIUS = 25.0
"""The temperature that the points of a forward curve are given at."""

EXACT_LOGARITHM = 1e-12
MOST_STEPS = 400


class ForwardPoint(Record, kw_only=True):
    """One point of a forward curve at 25 degrees Celsius, in amperes and volts."""

    ampere: float
    volts_typical: float
    volts_max: float
    volts_per_kelvin: float


class Leak(Record):
    """What a diode lets through backwards at most at 25 degrees Celsius, in amperes.

    `kelvin_to_double` is by how much warmer a diode is that leaks twice as much.
    """

    ampere: float
    kelvin_to_double: float


class DiodePart(Record, kw_only=True):
    """One diode. `forward` is from the smallest current up; units are in the other names.

    `leak` is None where nothing is known of it.

    `path` is the file that it was read from, None for a built-in one.
    """

    name: str
    title: str
    forward: tuple[ForwardPoint, ...]
    zero_bias_farad: float
    reverse_volts: float
    sources: tuple[tuple[str, str], ...]
    leak: Leak | None = None
    path: str | None = None

    def leak_ampere(self, celsius: float) -> float | None:
        """Return what it lets through backwards at most at a temperature; None if not known."""
        if self.leak is None:
            return None
        return float(self.leak.ampere * 2 ** ((celsius - AT_CELSIUS) / self.leak.kelvin_to_double))

    def drop(self, celsius: float = AT_CELSIUS, *, worst: bool = False) -> ForwardDrop:
        """Return how the forward voltage follows the current, at one temperature.

        It is that of a typical part, or with `worst` of the one that drops most.
        """
        warmer = celsius - AT_CELSIUS
        return ForwardDrop(
            tuple(
                (
                    log(point.ampere),
                    (point.volts_max if worst else point.volts_typical)
                    + warmer * point.volts_per_kelvin,
                )
                for point in self.forward
            )
        )


class ForwardDrop(Record):
    """A forward curve: points of the current's logarithm and the volts, straight between them."""

    points: tuple[tuple[float, float], ...]

    @cached_property
    def _pieces(self) -> list[tuple[float, float, float, float]]:
        """For each piece: where it ends (logarithm, volts), its slope, its volts at logarithm 0."""
        found = []
        for (start, low), (end, high) in pairwise(self.points):
            slope = (high - low) / (end - start)
            found.append((end, high, slope, low - slope * start))
        return found

    def _piece_to(self, end: int, value: float) -> tuple[float, float, float, float]:
        """Return the first piece that ends no lower, by one of its figures, or the last piece."""
        return next((one for one in self._pieces if value <= one[end]), self._pieces[-1])

    def volts(self, ampere: float) -> float:
        """Return the forward voltage at a current above zero."""
        at = log(ampere)
        _, _, slope, offset = self._piece_to(0, at)
        return offset + slope * at

    def ohm(self, ampere: float) -> float:
        """Return by how much the voltage grows with the current there, in volts per ampere."""
        return self._piece_to(0, log(ampere))[2] / ampere

    def ampere(self, volts: float) -> float:
        """Return the current at a forward voltage, the other way round."""
        _, _, slope, offset = self._piece_to(1, volts)
        return exp((volts - offset) / slope)

    def ampere_through(self, ohm: float, across: float) -> float:
        """Return the current in amperes at which a diode and a resistor share the volts `across`.

        By Newton's method on the logarithm of the current, from what the resistor alone would let
        through, and what the curve has at 0 V: the sum of both voltages grows and bends upwards.
        """
        at = log(across / ohm + self.ampere(0))
        for _ in range(MOST_STEPS):
            ampere = exp(at)
            rise = ampere * (self.ohm(ampere) + ohm)
            step = (self.volts(ampere) + ohm * ampere - across) / rise
            at -= step
            if abs(step) < EXACT_LOGARITHM:
                break
        return exp(at)


def diode_name(stated: Word, known: DiodePart | None) -> str:
    """Return what people call a diode: its part, also where the file states the path of a file."""
    return known.name if known else stated.text
