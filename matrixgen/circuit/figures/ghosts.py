"""The figures of a keyboard's ghosts."""

from __future__ import annotations

from matrixgen.circuit.figures.figure import Figure, Section
from matrixgen.circuit.ghost_report import GhostReport, MoreDiodes


def ghost_figures(ghosts: GhostReport) -> Section:
    """Return how many keys are told apart, how many sets are not, and what would end that."""
    size = ghosts.smallest_size
    told_apart: float | str = "any number" if size is None else size - 1
    if not ghosts.is_smallest:
        told_apart = 2  # a ghost takes three keys
    is_any = isinstance(told_apart, str)
    figures = [
        Figure(
            symbol="n_safe",
            value=told_apart,
            unit="" if is_any else "keys",
            says=f"{'of keys ' if is_any else ''}down at once are always told apart",
            formula=None if size is None else "the keys of the smallest ghost, less one",
        )
    ]
    if size is not None:
        figures += _counts(ghosts)
    return Section("Ghosts: keys that seem pressed and are not", tuple(figures))


def _counts(ghosts: GhostReport) -> list[Figure]:
    return [
        Figure(
            symbol="n_ghosts",
            value=ghosts.counted if ghosts.counted.startswith("more") else ghosts.count,
            unit="sets",
            says="of keys make another key seem pressed, and no part of them does",
        ),
        Figure(
            symbol="n_keymap",
            value=len(ghosts.used) if ghosts.has_all_used else f"at least {len(ghosts.used)}",
            unit="sets",
            says="of those does this keymap have down together",
        ),
        Figure(
            symbol="d_keymap",
            value=_fewest(ghosts.for_keymap),
            unit="diodes",
            says=f"at least are to be added so that the keymap has none of them{_then(ghosts)}",
        ),
        Figure(
            symbol="d_all",
            value=_fewest(ghosts.for_all),
            unit="diodes",
            says=f"at least are to be added so that there is none at all{_then(ghosts)}",
        ),
    ]


def _fewest(diodes: MoreDiodes) -> int | str:
    """Return how many diodes it takes, or what is surely enough where fewer may be."""
    many = len(diodes.keys)
    return many if diodes.are_fewest else f"at most {many}"


def _then(ghosts: GhostReport) -> str:
    """Return what is to be done besides where diodes point against the scan."""
    is_turned = any(one.diode == "away" for one in ghosts.matrix.contacts)
    return ", once those that point the wrong way are turned" if is_turned else ""
