"""The last lines of a report."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from matrixgen.jobs.examine import Examined
from matrixgen.model.design import Design
from matrixgen.model.prose import counted, listed


def summary(examined: Sequence[Examined]) -> str:
    """Return the last line of a report: how much was found, and whether it stops a build."""
    findings = [found for one in examined for found in one.findings]
    errors = sum(found.is_error for found in findings)
    warnings = len(findings) - errors
    where = "" if len(examined) == 1 else f" in {counted(len(examined), 'file')}"
    if errors:
        more = [counted(warnings, "warning")] if warnings else []
        return f"{' and '.join([counted(errors, 'error'), *more])}{where}"
    found_so_far = counted(warnings, "warning") if warnings else "no findings"
    if not all(one.is_finished for one in examined):
        return f"{found_so_far} so far{where}"
    planned = _only_planned(examined)
    if planned is None:
        return f"ready to build: {found_so_far}{where}"
    return f"{planned}, {found_so_far}{where}" if warnings else f"{planned}{where}"


def _only_planned(examined: Sequence[Examined]) -> str | None:
    """Return that some controllers have no firmware; None where all have it."""
    names = dict.fromkeys(m.profile.name for one in examined for m in one.only_planned)
    if not names:
        return None
    if all(len(one.only_planned) == len(one.mounted) for one in examined):
        return f"can be planned, not built: no firmware for {listed(names)} yet"
    return f"ready to build, but not for {listed(names, 'or')}: no firmware yet"


def unfinished(examined: Sequence[Examined]) -> list[str]:
    """Return a line for each file that leaves something open."""
    return [
        f"{_whose(one, examined)}unfinished: {', '.join(one.missing)}"
        for one in examined
        if one.missing
    ]


def _whose(one: Examined, examined: Sequence[Examined]) -> str:
    """Return the file's name with a colon, where there are several."""
    return f"{one.path}: " if len(examined) > 1 else ""


def pin_budgets(examined: Iterable[Examined]) -> list[str]:
    """Return how many pins each sound file needs, on each of its controllers, a line each."""
    return [line for one in examined if one.is_sound for line in _budget(one)]


def _budget(one: Examined) -> Iterable[str]:
    assert one.design is not None  # a sound file has one
    keyboard = one.design.keyboard
    lines, others = len(keyboard.wiring.lines), keyboard.component_pins
    if not lines:
        from matrixgen.rules.pins.more_wires_than_pins import least_lines

        rows, columns = least_lines(len(keyboard.keys))
        keys, pins = counted(len(keyboard.keys), "key"), counted(rows + columns + others, "pin")
        shape = f"{counted(rows, 'row')}, {counted(columns, 'column')}"
        shape += f", {others} for lights and knobs" if others else ""
        yield f"{one.path}: {keys}, which need at least {pins} ({shape})"
    so_far = "" if _has_both_axes(one.design) else " so far"
    if lines and not one.mounted:
        yield f"{one.path}: needs {counted(lines + others, 'pin')}{so_far}"
    for mounted in one.mounted if lines else ():
        usable = len(mounted.profile.usable_pins)
        yield (
            f"{one.path}: needs {lines + others} of {usable} usable pins on "
            f"`{mounted.profile.name}`{so_far}, {usable - lines - others} spare"
        )


def _has_both_axes(design: Design) -> bool:
    return len({line.axis for line in design.keyboard.wiring.lines}) > 1


def allowed(examined: Sequence[Examined]) -> list[str]:
    """Return a line for each kind of warning that a file allows: how many, and of what."""
    lines = []
    for one in examined:
        counts = Counter(found.slug for found in one.allowed)
        for slug, number in counts.items():
            places = [str(f.span.line) for f in one.allowed if f.slug == slug]
            where = f"{'line' if number == 1 else 'lines'} {', '.join(places)}"
            lines.append(f"{_whose(one, examined)}allowed: {number} x {slug}, {where}")
    return lines
