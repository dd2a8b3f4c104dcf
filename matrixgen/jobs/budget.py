"""How much memory a controller has for a firmware."""

from __future__ import annotations

from matrixgen.boards import Profile
from matrixgen.families import Family
from matrixgen.toolchain import Budget


def budget_of(family: Family, profile: Profile) -> Budget:
    """Return what a controller has for a firmware of its family."""
    return Budget.of(family, profile.flash_bytes, profile.boot_loader_bytes, profile.ram_bytes)
