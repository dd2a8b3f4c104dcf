"""A key that ends the keyboard and starts the boot loader."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour


class StartBootLoader(Behaviour):
    """The keyboard becomes the chip's boot loader, which waits for an image."""

    @property
    def phrase(self) -> str:
        """`start boot loader`."""
        return "start boot loader"

    @property
    def starts_boot_loader(self) -> bool:
        """It does."""
        return True
