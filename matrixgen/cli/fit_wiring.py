"""`matrixgen fit FILE --rows N ... [--write]`: a wiring, shown or put into the file."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator, Sequence
from pathlib import Path

from matrixgen.boards import Profile, load_named
from matrixgen.boards.paths import as_written, is_path
from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_json import wiring_json
from matrixgen.cli.fit_to_print import clean, clean_lines
from matrixgen.cli.printer import Printer
from matrixgen.cli.write_file import changed_lines, write_file
from matrixgen.fit.keyboard_block import block_of, controller_text
from matrixgen.fit.layout import Layout
from matrixgen.fit.new_wiring import NewLine
from matrixgen.fit.pins import most_lines
from matrixgen.fit.search import Progress
from matrixgen.fit.shapes import Size, why_not
from matrixgen.jobs.examine import SHOWN_STANDARD_INPUT, wrong_after
from matrixgen.jobs.fit import Fit
from matrixgen.model import SourceText
from matrixgen.model.prose import counted
from matrixgen.record import Record


class _Refused(Exception):
    """What cannot be done as it was asked for, and its cures."""


class Draft(Record):
    """A wiring that can be written: its layout, wires and diode, and the file's text with it.

    `added` is the controller that goes into the file as well, if one does.
    """

    layout: Layout
    lines: tuple[NewLine, ...]
    diode: str
    text: str
    added: str | None


def write_wiring(fit: Fit, path: str, arguments: argparse.Namespace, progress: Progress) -> int:
    """Show a wiring or put it into the file, and return the exit status."""
    try:
        _allowed(fit, path, arguments)
        added, profiles = _profiles(fit, path, arguments.controller)
        layout = _layout(fit, arguments, profiles, progress)
        draft = _planned(fit, layout, profiles, added)
    except _Refused as refused:
        return complain(*refused.args)
    wrong = wrong_after(draft.text, path)
    if wrong:
        print("\n\n".join(map(Printer({path: draft.text}).render, wrong.findings)))
        complain("this wiring would not check clean, so that nothing was written")
        return FINDINGS
    if arguments.write and (reason := write_file(Path(path), draft.text)):
        return complain(f"`{path}` cannot be written: {reason}")
    return _tell(fit, path, arguments, draft)


def _allowed(fit: Fit, path: str, arguments: argparse.Namespace) -> None:
    """Refuse to write where there is no file, or a wiring that was not to be changed."""
    if arguments.write and path == SHOWN_STANDARD_INPUT:
        raise _Refused("standard input cannot be changed", "name the file itself")
    if arguments.write and fit.design.keyboard.wiring.lines and not arguments.replace:
        raise _Refused(
            f"`{path}` has a wiring already",
            "`--write --replace` gives its wires other keys; without `--write` it is only shown",
        )


def _profiles(fit: Fit, path: str, controller: str | None) -> tuple[str | None, list[Profile]]:
    """Return what to write as the controller, if that is missing, and those to take pins of."""
    if controller is None:
        return None, list(fit.profiles)
    profile, findings = load_named(controller)
    if profile is None:
        raise _Refused(findings[0].message, *findings[0].helps)
    if not fit.design.controllers:
        return _as_written(controller, path), [profile]
    if not any(_is_same(profile, one) for one in fit.profiles):
        named = ", ".join(f"`{word}`" for word in fit.design.controllers)
        help = "change its line `controller`, or leave out --controller"
        raise _Refused(f"the file is for {named}, not for `{controller}`", help)
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


def _layout(
    fit: Fit, arguments: argparse.Namespace, profiles: Sequence[Profile], progress: Progress
) -> Layout:
    """Return the matrix that was asked for, or the one to take on the controllers."""
    keys = len(fit.design.keyboard.keys)
    rows, columns = arguments.rows, arguments.columns
    if rows is None and columns is None:
        return _taken(fit, profiles, progress)
    rows = rows or -(-keys // columns)
    columns = columns or -(-keys // rows)
    wrong = why_not(rows, columns, keys)
    if wrong:
        raise _Refused(*wrong)
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


def _too_few(size: Size, profiles: Sequence[Profile]) -> _Refused:
    """Return that a matrix has too many lines: for a controller, or for any file."""
    rows, columns = size
    matrix = f"{counted(rows, 'row')} and {counted(columns, 'column')}"
    help = "`matrixgen fit FILE` lists smaller matrices, and controllers with more pins"
    least = min(profiles, key=most_lines, default=None)
    if least is None or most_lines(least) >= sum(size):
        return _Refused(f"{matrix} are more than a file may have of one kind", help)
    pins = most_lines(least)
    return _Refused(f"{matrix} need {sum(size)} pins, and `{least.name}` has {pins} for them", help)


def _tell(fit: Fit, path: str, arguments: argparse.Namespace, draft: Draft) -> int:
    keys = len(fit.design.keyboard.keys)
    is_given = fit.design.keyboard.wiring.is_given
    if arguments.json:
        text = draft.text if is_given else fit.block(draft.lines, draft.diode)
        print(json.dumps(wiring_json(path, keys, draft.layout, draft.lines, text), indent=2))
        return FINE
    print("\n".join(map(clean_lines, _told(fit, path, arguments, draft))))
    return FINE


def _told(fit: Fit, path: str, arguments: argparse.Namespace, draft: Draft) -> Iterator[str]:
    """Yield what the wiring needs, the wiring itself, and what was or could be done with it."""
    layout, keys = draft.layout, len(fit.design.keyboard.keys)
    rows, columns = counted(len(layout.rows), "row"), counted(len(layout.columns), "column")
    yield (
        f"{clean(path)}: {counted(keys, 'key')} in {rows} and {columns}: {layout.lines} pins, "
        f"{counted(layout.jumpers, 'jumper')}, {layout.metres:.2f} m of wire"
    )
    yield ""
    if draft.text == fit.design.source.original:
        yield "the file has this wiring already"
        return
    is_given = fit.design.keyboard.wiring.is_given
    if is_given:
        yield from changed_lines(fit.design.source, SourceText(path, draft.text))
    else:
        yield from _new_blocks(fit, draft)
    yield ""
    if arguments.write:
        yield f"written into {clean(path)}"
    else:
        has_lines = bool(fit.design.keyboard.wiring.lines)
        yield f"`--write{' --replace' if has_lines else ''}` puts this into the file"


def _new_blocks(fit: Fit, draft: Draft) -> Iterator[str]:
    """Yield what a file without a wiring gets."""
    if draft.added and fit.design.keyboard.identity.name is not None:
        yield f"{controller_text(draft.added)}"
    elif draft.added:
        yield block_of(fit.new_name, draft.added)
    yield fit.block(draft.lines, draft.diode).rstrip("\n")
