"""What a key can do."""

from __future__ import annotations

from matrixgen.model.record import record


@record
class Press:
    """Hold down one usage of the keyboard page, or some modifiers, or both.

    `usage` is a number of HID usage page 0x07, or 0 for none. `modifiers` has bit n set for usage
    0xE0 + n (HID 1.11 appendix B.1), so that Left Control is bit 0 and Right GUI is bit 7. A
    modifier on its own is a bit in `modifiers`, never a `usage`.
    """

    usage: int
    modifiers: int = 0


@record
class HoldLayer:
    """The layer is on for as long as the key is down."""

    layer: str


@record
class LatchLayer:
    """Each press turns the layer on, or off again."""

    layer: str


@record
class Nothing:
    """The key is dead on purpose."""


@record
class StartBootLoader:
    """The keyboard becomes the chip's boot loader, which waits for an image."""


Action = Press | HoldLayer | LatchLayer | Nothing | StartBootLoader
