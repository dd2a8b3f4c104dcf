"""Chip families: everything that is known of one is a record in a file of its name."""

from matrixgen.families.avr import AVR
from matrixgen.families.family import ChipFlash, CompilerKind, Cycles, Family, ImageKind, PinPlace
from matrixgen.families.rp2040 import RP2040

FAMILIES: dict[str, Family] = {family.name: family for family in (AVR, RP2040)}
"""Each family by its name, which is also that of its folder under `templates/firmware/ports`."""
