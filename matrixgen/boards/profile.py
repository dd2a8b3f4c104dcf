"""What the checks and emitters know of a controller, a bare chip or a board."""

from __future__ import annotations

from functools import cached_property
from typing import Literal

from matrixgen.boards.around import Around, BootLoaderEntry
from matrixgen.boards.edge import ROUND_THE_BOARD, Edge, Side
from matrixgen.boards.outline import BoardOutline
from matrixgen.boards.proofs import Proof
from matrixgen.families import FAMILIES, Family
from matrixgen.model.work import Cosmetic, Reflash, Solder, Spelling
from matrixgen.record import Record, changed

Use = Literal["free", "shared", "reserved"]
PinPart = Literal["light to ground", "light to supply", "resistor to ground", "resistor to supply"]
Asks = Literal["nothing", "planning", "keys up", "work", "last resort"]

Speech = Literal["AVR109", "UF2", "DFU"]
"""How a boot loader takes an image: by a serial line, by a drive, by USB's class for upgrades."""


class Thresholds(Record):
    """Guaranteed input levels in volts: `low_max` is VIL max, `high_min` is VIH min.

    The last two say by how many volts each grows with a volt of supply; None where that is not
    known.
    """

    low_max: float
    high_min: float
    low_per_volt: float | None = None
    high_per_volt: float | None = None

    def at(self, supply: float, nominal: float) -> Thresholds:
        """Return the levels at another supply than the one that they are given for, in volts.

        Where it is not known how a level follows the supply, the worse of two guesses is taken:
        that it stays, and that it keeps its share of the supply.
        """
        more, share = supply - nominal, supply / nominal
        low = _moved(self.low_max, self.low_per_volt, more)
        high = _moved(self.high_min, self.high_per_volt, more)
        return Thresholds(
            min(self.low_max, self.low_max * share) if low is None else low,
            max(self.high_min, self.high_min * share) if high is None else high,
            self.low_per_volt,
            self.high_per_volt,
        )


def _moved(level: float, per_volt: float | None, more: float) -> float | None:
    return None if per_volt is None else level + per_volt * more


class SupplyRange(Record):
    """Between which volts the supply of the pins may lie, and who says so."""

    min: float
    max: float
    source: str


class PullUp(Record):
    """The guaranteed range of an internal pull-up in ohms: the strongest and the weakest."""

    min: float
    max: float


ASKS: tuple[Asks, ...] = ("nothing", "planning", "keys up", "work", "last resort")
"""What a second duty may ask of a maker, from the least to the most."""

FREE_COST = 1
NOTHING_COST = 2 + ASKS.index("nothing")
MOST_ASKED = 2 + len(ASKS)
"""The most that a free pin costs (`Pin.cost`), a shared one that asks nothing, any without part."""


class Pin(Record, kw_only=True):
    """One pin: `name` as in the datasheet, `label` as printed on the board if that differs.

    `use` is "free", "shared" (usable, but `duty` is a second duty and `advice` says what to do
    about it) or "reserved". `duty` is worded to follow the pin's name, and `asks` is how much a
    shared pin's asks of a maker, None where that is not known. `part` is what the board has
    on the pin, and `part_ohm` its resistor, None for the usual one (`boards/on_board.py`).
    `levels`, `pull_up_ohm_min` and `_max` (ohms) and `sink_ampere` (amperes that it may sink) are
    None where the profile's own hold: `levels_of`, `pull_up_of` and `sink_ampere_of` of the profile
    tell what holds.
    """

    name: str
    label: str | None
    use: Use
    duty: str | None
    advice: str | None
    output: bool
    pull_up: bool
    levels: Thresholds | None
    pull_up_ohm_min: float | None = None
    pull_up_ohm_max: float | None = None
    sink_ampere: float | None = None
    part: PinPart | None = None
    part_ohm: float | None = None
    asks: Asks | None = None

    @property
    def is_usable(self) -> bool:
        """Whether a line may end here."""
        return self.use != "reserved"

    @property
    def asks_nothing(self) -> bool:
        """Whether its second duty leaves nothing to do."""
        return self.asks == "nothing"

    @property
    def cost(self) -> int:
        """How much there is to think of for a line on it, from 0 up; only its order means anything.

        First come pins that do nothing else, then free ones with a duty, then shared ones by what
        that asks, then those of which that is not known; last are pins with a part on them.
        """
        if self.part is not None:
            return MOST_ASKED + 1
        if self.use == "free":
            return 0 if self.duty is None else 1
        return 2 + ASKS.index(self.asks) if self.asks else MOST_ASKED

    @property
    def shown(self) -> str:
        """The name as a maker finds it: the datasheet's, and the label where there is one."""
        return f"{self.name} ({self.label})" if self.label else self.name


class Datasheet(Record):
    """The maker's document that a profile's figures can be checked against."""

    title: str
    document: str
    section: str


class Profile(Record, kw_only=True):
    """One controller. Its units are in the field names; `boot_loader_bytes` is part of the flash.

    `port` is the folder under `templates/firmware/ports` that builds for it, or None where only
    its pins are known. `output_low_ohm` is the largest resistance of a pin that pulls low;
    `sink_ampere` is what one such pin may sink and `total_sink_ampere` what all may together, None
    where no limit is known; `drive_ampere` is no limit but the drive strength that the firmware
    chooses, None where there is nothing to choose. `supply` is the range of the supply, and
    `clock_volts` what the chip needs at least for its clock, None where any supply will do.
    `outline` is a board's, None where it is not known.
    `around` is what a bare chip needs, and `boot_loader_entry` how firmware starts the boot loader,
    None where that is not known. `boot_loader_speaks` is how it takes an image, None where that is
    not known. `path` is the file it was read from, None for a built-in one.

    The marks are the work that a change of a maker's own profile asks for. What only the settling
    time follows from is cosmetic, and so are the pins: that time, and which pin a wire is on, are
    compared by themselves (`jobs/compare_boards.py`).
    """

    name: Spelling[str]
    title: Cosmetic[str]
    chip: Solder[str]
    family: Solder[str]
    port: Reflash[str | None]
    proof: Cosmetic[Proof]
    datasheet: Cosmetic[Datasheet]
    clock_hz: Reflash[int]
    supply_volts: Cosmetic[float]
    flash_bytes: Cosmetic[int]
    ram_bytes: Reflash[int]
    boot_loader_bytes: Reflash[int]
    pull_up_ohm_min: Cosmetic[float]
    pull_up_ohm_max: Cosmetic[float]
    input_low_volts: Cosmetic[float]
    input_high_volts: Cosmetic[float]
    pin_farad: Cosmetic[float]
    output_low_ohm: Cosmetic[float]
    sink_ampere: Cosmetic[float | None]
    total_sink_ampere: Cosmetic[float | None]
    sources: Cosmetic[tuple[tuple[str, str], ...]]
    pins: Cosmetic[tuple[Pin, ...]]
    edges: Cosmetic[tuple[Edge, ...]]
    outline: Cosmetic[BoardOutline | None] = None
    around: Cosmetic[tuple[Around, ...]] = ()
    supply: Cosmetic[SupplyRange | None] = None
    clock_volts: Cosmetic[float | None] = None
    drive_ampere: Cosmetic[float | None] = None
    input_low_per_volt: Cosmetic[float | None] = None
    input_high_per_volt: Cosmetic[float | None] = None
    boot_loader_entry: Reflash[BootLoaderEntry | None] = None
    boot_loader_speaks: Cosmetic[Speech | None] = None
    path: Spelling[str | None] = None

    @cached_property
    def _by_name(self) -> dict[str, Pin]:
        labelled = {pin.label: pin for pin in self.pins if pin.label}
        return labelled | {pin.name: pin for pin in self.pins}

    def pin(self, name: str) -> Pin | None:
        """Return the pin with this name or board label, or None."""
        return self._by_name.get(name)

    def in_other_case(self, name: str) -> str | None:
        """Return the name or label of a pin that differs from `name` in capitals alone, if any."""
        folded = name.casefold()
        return next(
            (one for one in self._by_name if one != name and one.casefold() == folded), None
        )

    @property
    def usable_pins(self) -> tuple[Pin, ...]:
        """The pins that a line may end on: first those that cost least, see `Pin.cost`."""
        usable = (pin for pin in self.pins if pin.is_usable and not self.holds_low(pin))
        return tuple(sorted(usable, key=lambda pin: pin.cost))

    def holds_low(self, pin: Pin) -> bool:
        """Whether a resistor to ground on the board keeps an idle line from reading high for sure.

        That is so where V_CC R / (R + R_pull) is below V_IH at any supply, R_pull at its weakest.
        """
        if pin.part != "resistor to ground" or pin.part_ohm is None:
            return False
        share = pin.part_ohm / (pin.part_ohm + self.pull_up_of(pin).max)
        levels = self.levels_of(pin)
        at_each = ((v, levels.at(v, self.supply_volts)) for v in self.supplies)
        return any(volts * share < there.high_min for volts, there in at_each)

    @property
    def free_pins(self) -> tuple[Pin, ...]:
        """The pins that a line may end on with nothing to think of."""
        return tuple(pin for pin in self.usable_pins if pin.use == "free")

    @cached_property
    def pins_round_the_board(self) -> tuple[Pin, ...]:
        """The usable pins as they leave the board, counter-clockwise from the top left corner.

        Those that stand along no edge come last, in the profile's order, as all do where the
        profile has no edges.
        """
        at_edges = (self._by_name[name] for name in self.places_round_the_board)
        usable = set(self.usable_pins)
        return tuple(pin for pin in dict.fromkeys((*at_edges, *self.pins)) if pin in usable)

    @cached_property
    def places_round_the_board(self) -> dict[str, int]:
        """The place of each pin on that walk, where what is no pin counts as well."""
        walked = [name for side in ROUND_THE_BOARD for name in self._along(side)]
        at_edges = ((self._by_name.get(name), place) for place, name in enumerate(walked))
        return {pin.name: place for pin, place in at_edges if pin}

    def _along(self, side: Side) -> tuple[str, ...]:
        """Return what stands along a side, in the order of the walk round the board."""
        names = [name for edge in self.edges if edge.side == side for name in edge.names]
        return tuple(names[::-1] if side in ("right", "top") else names)

    @property
    def family_record(self) -> Family | None:
        """What is known of the chip's family; None where there is no such family."""
        return FAMILIES.get(self.family)

    @property
    def has_boot_loader(self) -> bool:
        """Whether the controller has a boot loader that firmware can start.

        Nothing is known of a family that has no record, so none of its chips is said to have none.
        """
        family = self.family_record
        return self.boot_loader_bytes > 0 or family is None or family.rom_entry is not None

    @property
    def room_bytes(self) -> int:
        """Flash left for the firmware, in bytes: all of it less the boot loader's share."""
        return self.flash_bytes - self.boot_loader_bytes

    def levels_of(self, pin: Pin) -> Thresholds:
        """Return the guaranteed input levels of a pin: its own or the profile's."""
        return pin.levels or self.levels

    @cached_property
    def levels(self) -> Thresholds:
        """The guaranteed input levels of pins without levels of their own."""
        return Thresholds(
            self.input_low_volts,
            self.input_high_volts,
            self.input_low_per_volt,
            self.input_high_per_volt,
        )

    @property
    def supplies(self) -> tuple[float, ...]:
        """The supplies to reckon with, in volts: the least, the usual one, the most."""
        if self.supply is None:
            return (self.supply_volts,)
        return tuple(sorted({self.supply.min, self.supply_volts, self.supply.max}))

    @cached_property
    def at_supplies(self) -> tuple[Profile, ...]:
        """The same controller at each of its supplies."""
        return tuple(map(self.at_supply, self.supplies))

    def at_supply(self, supply: float) -> Profile:
        """Return the same controller with another supply in volts, and the levels that it has then.

        A pin's resistance while it pulls low is taken to stay.
        """
        if supply == self.supply_volts:
            return self
        levels = self.levels.at(supply, self.supply_volts)
        pins = (
            changed(pin, levels=pin.levels.at(supply, self.supply_volts)) if pin.levels else pin
            for pin in self.pins
        )
        return changed(
            self,
            supply_volts=supply,
            input_low_volts=levels.low_max,
            input_high_volts=levels.high_min,
            pins=tuple(pins),
        )

    def pull_up_of(self, pin: Pin) -> PullUp:
        """Return the range of a pin's internal pull-up in ohms: its own or the profile's."""
        if pin.pull_up_ohm_min is None or pin.pull_up_ohm_max is None:
            return PullUp(self.pull_up_ohm_min, self.pull_up_ohm_max)
        return PullUp(pin.pull_up_ohm_min, pin.pull_up_ohm_max)

    def sink_ampere_of(self, pin: Pin) -> float | None:
        """Return how many amperes a pin may sink: its own limit or the profile's, if any."""
        return self.sink_ampere if pin.sink_ampere is None else pin.sink_ampere
