"""What the checks and emitters know of a controller, a bare chip or a board."""

from __future__ import annotations

from functools import cached_property
from typing import Literal

from matrixgen.boards.around import Around, BootLoaderEntry
from matrixgen.boards.edge import ROUND_THE_BOARD, Edge, Side
from matrixgen.boards.outline import BoardOutline
from matrixgen.boards.pin import Pin, PullUp, SupplyRange, Thresholds
from matrixgen.boards.proofs import Proof
from matrixgen.families import FAMILIES, Family
from matrixgen.model.work import Cosmetic, Reflash, Solder, Spelling
from matrixgen.record import Record, changed

Speech = Literal["AVR109", "UF2", "DFU"]
"""How a boot loader takes an image: by a serial line, by a drive, by USB's class for upgrades."""


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

    def levels_of(self, pin: Pin | None) -> Thresholds:
        """Return the guaranteed input levels of a pin: its own or the profile's, as without one."""
        return (pin and pin.levels) or self.levels

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

    def pull_up_of(self, pin: Pin | None) -> PullUp:
        """Return the range of a pin's internal pull-up in ohms, likewise."""
        if pin and pin.pull_up_ohm_min is not None and pin.pull_up_ohm_max is not None:
            return PullUp(pin.pull_up_ohm_min, pin.pull_up_ohm_max)
        return PullUp(self.pull_up_ohm_min, self.pull_up_ohm_max)

    def sink_ampere_of(self, pin: Pin | None) -> float | None:
        """Return how many amperes a pin may sink, likewise, if there is a limit."""
        return self.sink_ampere if pin is None or pin.sink_ampere is None else pin.sink_ampere
