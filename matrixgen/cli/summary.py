"""The last lines of a report."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.boards import Profile
from matrixgen.model import Diagnostic


def summary(findings: Iterable[Diagnostic], files: int) -> str:
    """Return the last line of a report: how much was found in how many files."""
    errors = warnings = 0
    for found in findings:
        errors, warnings = errors + found.is_error, warnings + (not found.is_error)
    of_files = f"in {counted(files, 'file')}"
    if not errors + warnings:
        return f"nothing found {of_files}"
    parts = [counted(n, kind) for n, kind in ((errors, "error"), (warnings, "warning")) if n]
    return f"{' and '.join(parts)} {of_files}"


def counted(number: int, noun: str) -> str:
    """Return a number and its noun, in the plural where it must be."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def pin_budget(path: str, lines: int, profile: Profile) -> str:
    """Return how many pins a file's lines need, of those that its controller has."""
    usable = len(profile.usable_pins)
    needed = counted(lines, "pin")
    return f"{path}: {needed} needed, {usable} usable on `{profile.name}`, {usable - lines} spare"
