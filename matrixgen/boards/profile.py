"""What the checks and emitters know of a controller, a bare chip or a board."""

from __future__ import annotations

from functools import cached_property
from typing import Literal

from matrixgen.families import FAMILIES, Family
from matrixgen.record import Record

Use = Literal["free", "shared", "reserved"]
Proof = Literal["pins only", "builds", "emulated", "silicon"]


class Levels(Record):
    """Guaranteed input levels in volts: `low_max` is VIL max, `high_min` is VIH min."""

    low_max: float
    high_min: float


class Pin(Record, kw_only=True):
    """One pin: `name` as in the datasheet, `label` as printed on the board if that differs.

    `use` is "free", "shared" (usable, but `duty` is a second duty and `advice` says what to do
    about it) or "reserved". `duty` is worded to follow the pin's name. `levels` is None where the
    profile's own hold.
    """

    name: str
    label: str | None
    use: Use
    duty: str | None
    advice: str | None
    output: bool
    pull_up: bool
    levels: Levels | None

    @property
    def is_usable(self) -> bool:
        """Whether a line may end here."""
        return self.use != "reserved"

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
    its pins are known. `path` is the file it was read from, None for a built-in one.
    """

    name: str
    title: str
    chip: str
    family: str
    port: str | None
    proof: Proof
    datasheet: Datasheet
    clock_hz: int
    supply_volts: float
    flash_bytes: int
    ram_bytes: int
    boot_loader_bytes: int
    pull_up_ohm_min: float
    pull_up_ohm_max: float
    input_low_volts: float
    input_high_volts: float
    pin_farad: float
    sources: tuple[tuple[str, str], ...]
    pins: tuple[Pin, ...]
    path: str | None = None

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
        """The pins that a line may end on: first those that do nothing else at all."""
        usable = (pin for pin in self.pins if pin.is_usable)
        return tuple(sorted(usable, key=lambda pin: (pin.use != "free", pin.duty is not None)))

    @property
    def free_pins(self) -> tuple[Pin, ...]:
        """The pins that a line may end on with nothing to think of."""
        return tuple(pin for pin in self.usable_pins if pin.use == "free")

    @property
    def family_record(self) -> Family | None:
        """What is known of the chip's family; None where there is no such family."""
        return FAMILIES.get(self.family)

    @property
    def has_boot_loader(self) -> bool:
        """Whether the controller has a boot loader that firmware can start."""
        in_rom = self.family_record is not None and self.family_record.rom_entry is not None
        return self.boot_loader_bytes > 0 or in_rom

    @property
    def room_bytes(self) -> int:
        """Flash left for the firmware, in bytes: all of it less the boot loader's share."""
        return self.flash_bytes - self.boot_loader_bytes

    def levels_of(self, pin: Pin) -> Levels:
        """Return the guaranteed input levels of a pin: its own or the profile's."""
        return pin.levels or Levels(self.input_low_volts, self.input_high_volts)
