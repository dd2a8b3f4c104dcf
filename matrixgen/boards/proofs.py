"""How far firmware for a controller has been tried.

That is known of built-in profiles alone: whoever copies one, or writes a profile of his own, has
another board, whose pins nobody has tried. What was emulated is listed here, and
`tests/emulators/test_proofs.py` holds the list to what the tests emulate.
"""

from __future__ import annotations

from typing import Literal

Proof = Literal["pins only", "not proven", "builds", "emulated"]

EMULATED = frozenset(
    ("at90usb162", "atmega32u4", "board-32u4-25", "rp2040", "rp2040-40pin", "stick-32u4")
)
"""The built-in controllers whose firmware ran on an emulated chip, key by key."""


def proof_of(name: str, port: str | None, *, is_own: bool) -> Proof:
    """Return what is known of a controller's firmware; of one without a port only its pins are."""
    if port is None:
        return "pins only"
    if is_own:
        return "not proven"
    return "emulated" if name in EMULATED else "builds"
