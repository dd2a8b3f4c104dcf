"""`matrixgen fit FILE --rows N ... [--write]`: a wiring, shown or put into the file."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_json import wiring_json
from matrixgen.cli.fit_to_print import clean, clean_lines
from matrixgen.cli.json_report import print_report
from matrixgen.cli.printer import tell
from matrixgen.cli.write_file import changed_lines, rewrite_file
from matrixgen.failure import Failure
from matrixgen.fit.keyboard_block import block_of, controller_text
from matrixgen.fit.search import Progress
from matrixgen.jobs.examine import SHOWN_STANDARD_INPUT, wrong_after
from matrixgen.jobs.fit import Fit
from matrixgen.jobs.fit_wiring import Asked, Draft, drafted
from matrixgen.model import SourceText
from matrixgen.model.prose import counted


def write_wiring(fit: Fit, path: str, arguments: argparse.Namespace, progress: Progress) -> int:
    """Show a wiring or put it into the file, and return the exit status."""
    asked = Asked(arguments.rows, arguments.columns, arguments.controller)
    _allowed(fit, path, arguments)
    draft = drafted(fit, path, asked, progress)
    wrong = wrong_after(draft.text, path)
    if wrong:
        tell(wrong.findings, {path: draft.text})
        complain("this wiring would not pass `check`, so nothing was written")
        return FINDINGS
    if arguments.write:
        rewrite_file(Path(path), fit.design.source, draft.text)
    return _tell(fit, path, arguments, draft)


def _allowed(fit: Fit, path: str, arguments: argparse.Namespace) -> None:
    """Refuse to write where there is no file, or a wiring that was not to be changed."""
    if arguments.write and path == SHOWN_STANDARD_INPUT:
        raise Failure("standard input cannot be changed", "name the file itself")
    if arguments.write and fit.design.keyboard.wiring.lines and not arguments.replace:
        raise Failure(
            f"`{path}` already has a wiring",
            "`--write --replace` replaces it; without `--write` the new one is only shown",
        )


def _tell(fit: Fit, path: str, arguments: argparse.Namespace, draft: Draft) -> int:
    keys = len(fit.design.keyboard.keys)
    is_given = fit.design.keyboard.wiring.is_given
    if arguments.json:
        text = draft.text if is_given else fit.block(draft.lines, draft.diode)
        print_report(wiring_json(path, keys, draft.layout, draft.lines, text))
        return FINE
    print("\n".join(map(clean_lines, _report(fit, path, arguments, draft))))
    return FINE


def _report(fit: Fit, path: str, arguments: argparse.Namespace, draft: Draft) -> Iterator[str]:
    """Yield what the wiring needs, the wiring itself, and what was or could be done with it."""
    layout, keys = draft.layout, len(fit.design.keyboard.keys)
    rows, columns = counted(len(layout.rows), "row"), counted(len(layout.columns), "column")
    yield (
        f"{clean(path)}: {counted(keys, 'key')} in {rows} and {columns}: {layout.lines} pins, "
        f"{counted(layout.jumpers, 'jumper')}, {layout.metres:.2f} m of wire"
    )
    yield ""
    if draft.text == fit.design.source.original:
        yield "the file already has this wiring"
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
