"""Statements of the block `plate` that say where no wire may run: screw holes, areas."""

from __future__ import annotations

FIRST_WORDS = {"hole": 1, "keep_clear": 2}
"""How many words stand before the place of each of these statements, by the grammar's rule."""
