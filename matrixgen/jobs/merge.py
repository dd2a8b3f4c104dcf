"""One report of the findings on several controllers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from matrixgen.model import Diagnostic
from matrixgen.model.record import changed

Labelled = Sequence[tuple[str, Diagnostic]]


def merged(by_controller: Mapping[str, Iterable[Diagnostic]]) -> list[Diagnostic]:
    """Return each finding once, though it was made on several controllers.

    Findings are the same if they say the same of the same place. Where their cures differ, as the
    name of a spare pin does, the one that is kept has all of them.
    """
    same: dict[object, list[tuple[str, Diagnostic]]] = {}
    for controller, findings in by_controller.items():
        for found in findings:
            key = (found.slug, found.severity, found.span, found.message)
            same.setdefault(key, []).append((controller, found))
    return [_one(labelled) for labelled in same.values()]


def _one(labelled: Labelled) -> Diagnostic:
    first = labelled[0][1]
    helps = {found.help: controller for controller, found in reversed(labelled) if found.help}
    notes = tuple(dict.fromkeys(note for _, found in labelled for note in found.notes))
    if len(helps) < 2:
        return changed(first, notes=notes)
    parts = [f"on `{controller}`: {help}" for help, controller in reversed(helps.items())]
    return changed(first, help="; ".join(parts), notes=notes)
