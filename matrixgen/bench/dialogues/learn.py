"""From the pins that each key joins to rows and columns, diodes and keys without one.

A diode lets current out of its band to the pin that is pulled low, so that pins which were low are
one kind of line and pins which were read the other. Lines without diodes are told apart by the keys
between them alone. Which kind is called rows is as the file has it, or else as the keys lie.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from statistics import pvariance

from matrixgen.bench.serial.press import ClosedPairs, pins_of
from matrixgen.model import Axis, Key
from matrixgen.model.geometry import centre_of
from matrixgen.record import Record

PinNames = frozenset[str]


class Remark(Record):
    """What is odd about a key: why no wiring holds it, or that its diode points the other way."""

    key: str
    says: str
    is_wrong: bool = True


class Learned(Record, kw_only=True):
    """A wiring as it was found: the keys of each pin in plate order, rows and columns apart.

    `band_toward` is None where no key has a diode. Nothing is known of the keys that are `open`.
    """

    rows: Mapping[str, tuple[str, ...]]
    columns: Mapping[str, tuple[str, ...]]
    band_toward: Axis | None
    bare: tuple[str, ...]
    turned: tuple[str, ...]
    open: frozenset[str]
    remarks: tuple[Remark, ...]


class Doubt(Record):
    """Why a press may not be of the key that was asked for.

    It reads the same as another one, or so many pins meet that two keys may be held: `keys_held`
    are those of them that are known.
    """

    pins: int
    same_as: str | None
    keys_held: tuple[str, ...]


def doubt_of(press: ClosedPairs, before: Mapping[str, ClosedPairs]) -> Doubt | None:
    """Return why a press may not be of the key that was asked for, beside those of other keys."""
    pins = pins_of(press)
    same = next((other for other, of in before.items() if of and pins_of(of) == pins), None)
    if len(pins) <= 2 and same is None:
        return None
    held = tuple(other for other, of in before.items() if of and of < press)
    return Doubt(len(pins), same, held)


def remark_of(key: str, press: ClosedPairs, before: Mapping[str, ClosedPairs]) -> Remark | None:
    """Return what is odd about a key's press, beside those of other keys."""
    pins = pins_of(press)
    if not press:
        return Remark(key, "connects nothing: check its joints, its diode and its switch")
    doubt = doubt_of(press, before)
    if len(pins) > 2:
        named = ", ".join(f"`{pin}`" for pin in sorted(pins))
        return Remark(key, f"connects {len(pins)} pins at once ({named}): two wires touch there")
    if doubt:
        other = doubt.same_as
        return Remark(key, f"is on the same two pins as `{other}`: one of the two is wired wrongly")
    return None


def learned(
    keys: Sequence[Key], presses: Mapping[str, ClosedPairs], row_pins: Iterable[str] = ()
) -> Learned:
    """Return the wiring of a plate's keys; `row_pins` are those that the file has rows on."""
    return _Learning(keys, presses, frozenset(row_pins)).learned()


class _Learning:
    def __init__(
        self, keys: Sequence[Key], presses: Mapping[str, ClosedPairs], row_pins: PinNames
    ) -> None:
        self._row_pins = row_pins
        self._centres = {key.name.text: centre_of(key) for key in keys}
        self._remarks: list[Remark] = []
        self._presses: dict[str, ClosedPairs] = {}
        for key in self._centres:
            remark = remark_of(key, presses[key], self._presses) if key in presses else None
            if key in presses and remark is None:
                self._presses[key] = presses[key]
            if remark:
                self._remarks.append(remark)

    def learned(self) -> Learned:
        """Return the wiring."""
        sides = [self._sided(pins) for pins in self._groups()]
        with_diodes = [side for side in sides if self._votes(*side)]
        low_is_row = self._is_row(*_merged(with_diodes)) if with_diodes else False
        rows: set[str] = set()
        for low, high in sides:
            is_row = low_is_row if (low, high) in with_diodes else self._is_row(low, high)
            rows |= low if is_row else high
        lows = _merged(with_diodes)[0]
        bare = tuple(key for key, press in self._presses.items() if len(press) == 2)
        turned = tuple(
            key
            for key, press in self._presses.items()
            if len(press) == 1 and next(iter(press))[0] not in lows
        )
        for key in turned:
            says = "conducts in the other direction than most keys: its diode is reversed"
            self._remarks.append(Remark(key, says, is_wrong=False))
        return Learned(
            rows=self._lines(rows, "row"),
            columns=self._lines(self._all_pins() - rows, "column"),
            band_toward=("row" if low_is_row else "column") if with_diodes else None,
            bare=bare,
            turned=turned,
            open=frozenset(self._centres.keys() - self._presses.keys()),
            remarks=tuple(self._remarks),
        )

    def _all_pins(self) -> set[str]:
        return {pin for press in self._presses.values() for pin in pins_of(press)}

    def _groups(self) -> list[set[str]]:
        """Return the pins that keys join, by whatever way, in groups."""
        groups: list[set[str]] = []
        for press in self._presses.values():
            pins = set(pins_of(press))
            touching = [group for group in groups if group & pins]
            groups = [group for group in groups if not group & pins]
            groups.append(pins.union(*touching))
        return sorted(groups, key=min)

    def _sided(self, pins: set[str]) -> tuple[PinNames, PinNames]:
        """Return the two kinds of lines of a group: first the one that diodes' bands point toward.

        Keys that join two lines of one kind are said to, and left out.
        """
        sides = two_kinds(pins, self._presses)
        while sides is None:
            self._drop(pins)
            sides = two_kinds(pins, self._presses)
        one, two = sides
        return (two, one) if self._votes(one, two) < 0 else (one, two)

    def _drop(self, pins: set[str]) -> None:
        """Leave out a key without which there are two kinds of lines; of several the oddest."""
        keys = [key for key, press in self._presses.items() if pins_of(press) <= pins]
        others = {key: without(self._presses, key) for key in keys}
        able = [key for key in keys if two_kinds(pins, others[key])] or keys
        key = max(able, key=lambda one: (self._against(one), keys.index(one)))
        one, other = sorted(pins_of(self._presses.pop(key)))
        says = (
            f"connects `{one}` and `{other}`, which by the other keys are both rows or both columns"
        )
        self._remarks.append(Remark(key, says))

    def _against(self, key: str) -> int:
        """Return how many other keys have a diode that makes one of its pins the other kind."""
        pairs = self._presses[key]
        others = [pair for other, press in self._presses.items() if other != key for pair in press]
        lows, reads = {low for low, _ in pairs}, {read for _, read in pairs}
        return sum((low in reads) + (read in lows) for low, read in others)

    def _votes(self, low: PinNames, high: PinNames) -> int:
        """Return how many more diodes have their band toward the first than toward the second."""
        single = [next(iter(press)) for press in self._presses.values() if len(press) == 1]
        toward = sum(pair[0] in low and pair[1] in high for pair in single)
        away = sum(pair[0] in high and pair[1] in low for pair in single)
        return toward - away if toward != away else toward and 1

    def _is_row(self, one: PinNames, other: PinNames) -> bool:
        """Whether the first of two kinds of lines is the rows."""
        known = len(one & self._row_pins) - len(other & self._row_pins)
        return known > 0 if known else self._slope(one) <= self._slope(other)

    def _slope(self, pins: PinNames) -> float:
        """Return how far the keys of lines lie below each other, beside how far they lie apart.

        Lines of one key each lie neither way.
        """
        below = apart = 0.0
        for pin in pins:
            points = [self._centres[key] for key in self._keys_of(pin)]
            down = pvariance([y for _, y in points])
            below, apart = below + down, apart + down + pvariance([x for x, _ in points])
        return below / apart if apart else 0.5

    def _keys_of(self, pin: str) -> tuple[str, ...]:
        return tuple(key for key, press in self._presses.items() if pin in pins_of(press))

    def _lines(self, pins: set[str], axis: Axis) -> dict[str, tuple[str, ...]]:
        """Return the keys of each pin: rows from the top, columns from the left."""
        along = 1 if axis == "row" else 0

        def place(pin: str) -> tuple[float, float, str]:
            points = [self._centres[key] for key in self._keys_of(pin)]
            middle = [sum(point[n] for point in points) / len(points) for n in (along, 1 - along)]
            return (round(middle[0], 6), round(middle[1], 6), pin)

        with_keys = [pin for pin in pins if self._keys_of(pin)]
        return {pin: self._keys_of(pin) for pin in sorted(with_keys, key=place)}


def _merged(sides: Sequence[tuple[PinNames, PinNames]]) -> tuple[PinNames, PinNames]:
    none: PinNames = frozenset()
    return none.union(*(low for low, _ in sides)), none.union(*(high for _, high in sides))


def without(presses: Mapping[str, ClosedPairs], key: str) -> dict[str, ClosedPairs]:
    """Return the presses of all keys but one."""
    return {other: press for other, press in presses.items() if other != key}


def two_kinds(
    pins: Iterable[str], presses: Mapping[str, ClosedPairs]
) -> tuple[PinNames, PinNames] | None:
    """Return pins as two kinds, so that each key joins one of each; None where there is no way."""
    joined = [pins_of(press) for press in presses.values()]
    is_first: dict[str, bool] = {}
    for start in sorted(pins):
        waiting = [] if start in is_first else [start]
        is_first.setdefault(start, True)
        while waiting:
            here = waiting.pop()
            for [other] in (pair - {here} for pair in joined if here in pair):
                if is_first.get(other) == is_first[here]:
                    return None
                if other not in is_first:
                    is_first[other] = not is_first[here]
                    waiting.append(other)
    one = frozenset(pin for pin, first in is_first.items() if first)
    return one, frozenset(is_first) - one


def driven(found: Learned, otherwise: Axis) -> Axis:
    """Return the lines that the firmware has to pull low: those that the bands point toward."""
    return found.band_toward or otherwise
