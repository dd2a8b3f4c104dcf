"""What the firmware of a chip family can do beyond what every port must: one table for all."""

from __future__ import annotations

from matrixgen.boards.profile import Profile
from matrixgen.model.record import record


@record
class Abilities:
    """`boot_rom`: every chip has a boot loader in mask ROM, so that none is needed in flash.

    `double_reset`: the firmware can tell a second reset from a first one. It cannot where a reset
    starts the boot loader and not the firmware, as on the boards with AVR chips.
    """

    boot_rom: bool
    double_reset: bool


FAMILIES = {
    "avr": Abilities(boot_rom=False, double_reset=False),
    "rp2040": Abilities(boot_rom=True, double_reset=True),
}
"""By the profile's `family`."""


def abilities(profile: Profile) -> Abilities:
    """Return what firmware for this controller can do; nothing for a family not in the table."""
    return FAMILIES.get(profile.family, Abilities(boot_rom=False, double_reset=False))


def has_boot_loader(profile: Profile) -> bool:
    """Whether the controller has a boot loader that firmware can start."""
    return profile.boot_loader_bytes > 0 or abilities(profile).boot_rom
