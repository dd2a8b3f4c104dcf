"""A wiring for a file: of the matrix and the controller that are asked for, or of the best ones."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from matrixgen.boards import Profile, load_named
from matrixgen.boards.paths import as_written, is_path
from matrixgen.failure import Failure
from matrixgen.fit.layout import Layout
from matrixgen.fit.new_wiring import NewLine
from matrixgen.fit.pins import most_lines
from matrixgen.fit.search import Progress
from matrixgen.fit.shapes import Size, why_not
from matrixgen.jobs.fit import Fit
from matrixgen.model.prose import counted
from matrixgen.record import Record


class Asked(Record):
    """How many rows and columns a wiring is to have, and on which controller, if that is said."""

    rows: int | None
    columns: int | None
    controller: str | None


class Draft(Record):
    """A wiring that can be written: its layout, wires and diode, and the file's text with it.

    `added` is the controller that goes into the file as well, if one does.
    """

    layout: Layout
    lines: tuple[NewLine, ...]
    diode: str
    text: str
    added: str | None


def drafted(fit: Fit, path: str, asked: Asked, progress: Progress) -> Draft:
    """Return a wiring for the file at `path`; raises `Failure`."""
    added, profiles = _profiles(fit, path, asked.controller)
    layout = _layout(fit, asked, profiles, progress)
    return _planned(fit, layout, profiles, added)


def _profiles(fit: Fit, path: str, controller: str | None) -> tuple[str | None, list[Profile]]:
    """Return what to write as the controller, if that is missing, and those to take pins of."""
    if controller is None:
        return None, list(fit.profiles)
    profile, findings = load_named(controller)
    if profile is None:
        raise Failure(findings[0].message, *findings[0].helps)
    if not fit.design.controllers:
        return _as_written(controller, path), [profile]
    if not any(_is_same(profile, one) for one in fit.profiles):
        named = ", ".join(f"`{word}`" for word in fit.design.controllers)
        help = "change the statement `controller`, or leave out --controller"
        raise Failure(f"the file is for {named}, not for `{controller}`", help)
    return None, list(fit.profiles)


def _is_same(one: Profile, other: Profile) -> bool:
    if one.path is None or other.path is None:
        return one.path is other.path and one.name == other.name
    return Path(one.path).resolve() == Path(other.path).resolve()


def _as_written(controller: str, path: str) -> str:
    """Return a controller as the file at `path` would name it."""
    if not is_path(controller):
        return controller
    return as_written(controller, Path(path).parent)


def _layout(fit: Fit, asked: Asked, profiles: Sequence[Profile], progress: Progress) -> Layout:
    """Return the matrix that was asked for, or the one to take on the controllers."""
    keys = len(fit.design.keyboard.keys)
    if asked.rows is None and asked.columns is None:
        return _taken(fit, profiles, progress)
    rows = asked.rows or -(-keys // (asked.columns or 1))
    columns = asked.columns or -(-keys // rows)
    wrong = why_not(rows, columns, keys)
    if wrong:
        raise Failure(*wrong)
    layout = fit.laid_out((rows, columns), progress)
    if layout is None:
        raise _too_few((rows, columns), profiles)
    return layout


def _taken(fit: Fit, profiles: Sequence[Profile], progress: Progress) -> Layout:
    shapes = fit.shapes_to_write(progress)
    choice = fit.choice(profiles, shapes)
    if choice is None:
        raise _too_few(min((one.size for one in shapes), key=sum), profiles)
    return choice.shape.layout


def _planned(fit: Fit, layout: Layout, profiles: Sequence[Profile], added: str | None) -> Draft:
    """Return a wiring of one layout, with pins of the controllers."""
    lines = fit.placed(layout, profiles)
    if lines is None:
        raise _too_few((len(layout.rows), len(layout.columns)), profiles)
    diode = fit.sure_diode(lines, profiles)
    return Draft(layout, tuple(lines), diode, fit.text(lines, diode, added), added)


def _too_few(size: Size, profiles: Sequence[Profile]) -> Failure:
    """Return that a matrix has too many lines: for a controller, or for any file."""
    rows, columns = size
    matrix = f"{counted(rows, 'row')} and {counted(columns, 'column')}"
    help = "`matrixgen fit FILE` lists smaller matrices, and controllers with more pins"
    least = min(profiles, key=most_lines, default=None)
    if least is None or most_lines(least) >= sum(size):
        return Failure(f"{matrix} are more than a file may have of one kind", help)
    pins = most_lines(least)
    return Failure(f"{matrix} need {sum(size)} pins, and `{least.name}` has {pins} for them", help)
