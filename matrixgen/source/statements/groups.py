"""Statements that are treated alike, by the grammar's rules."""

from __future__ import annotations

PLACES = ("hole", "keep_clear")
"""Where no wire may run: screw holes, areas."""

WIRES = ("row", "column")
