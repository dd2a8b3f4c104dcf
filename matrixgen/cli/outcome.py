"""What a build says of itself, and its folders, one for each controller."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path, PurePath

from matrixgen.boards import Profile
from matrixgen.cli.complain import FINDINGS
from matrixgen.cli.fit_to_print import clean_lines
from matrixgen.emit.bench_tree import PAGE
from matrixgen.emit.manifest import ImageSummary
from matrixgen.emit.output_folder import holds_a_build, not_ours, write_folder
from matrixgen.emit.turn_view import stroke_bytes
from matrixgen.failure import Failure
from matrixgen.jobs.bench import BenchBuild
from matrixgen.jobs.build import Built
from matrixgen.jobs.images import CompilerMissing, CompilerRefused
from matrixgen.jobs.sheet import PAGE as SHEET
from matrixgen.model.prose import counted
from matrixgen.model.reason import reason_of

TEST_IDS = (
    "the file names no USB ids, so it gets 1209:0001, which is for private testing only; "
    "`usb VENDOR:PRODUCT` in the `keyboard` block names your own"
)


def build_lines(built: Built, out: PurePath) -> list[str]:
    """Return a line for each thing that a build has written to `out`."""
    lines = [_measured(built.image, out, stroke_bytes(built.table.keyboard))] if built.image else []
    wires = len(built.table.rows) + len(built.table.columns)
    spare = counted(len(built.table.spare), "pin")
    lines.append(f"{out / SHEET}: drawings and lists to wire it by, and a keyboard to press")
    lines.append(f"{out / 'pins.md'}: {counted(wires, 'wire')}, {spare} to spare")
    lines.append(_sources(out))
    return lines


def bench_lines(bench: BenchBuild, out: PurePath) -> list[str]:
    """Return the same of a bench's image."""
    lines = [_measured(bench.image, out)] if bench.image else []
    lines.append(
        f"{out / PAGE}: what it reports of {counted(bench.pins, 'pin')}, and how to read it"
    )
    return [*lines, _sources(out)]


def _measured(image: ImageSummary, out: PurePath, strokes: int = 0) -> str:
    """Return what an image takes; `strokes` are the bytes of what keys type in turn."""
    of_strokes = f" ({strokes:,} for what keys type in turn)" if strokes else ""
    flash = f"{image.flash_used:,} of {image.flash_available:,} bytes of flash{of_strokes}"
    ram = f"{image.ram_used:,} of {image.ram_available:,} bytes of RAM"
    return f"{out / image.files[0]}: {flash}, {ram} ({image.compiler})"


def _sources(out: PurePath) -> str:
    return f"{out / 'firmware'}: the C sources, and a Makefile"


def notes(built: Built) -> list[str]:
    """Return what the user should know besides."""
    found = []
    if built.table.keyboard.identity.vendor_id is None:
        found.append(f"note: {TEST_IDS}")
    return found


@contextmanager
def compiling() -> Iterator[None]:
    """Raise `Failure` where there is no compiler, or it refuses; print what it says."""
    try:
        yield
    except CompilerMissing as missing:
        helps = (*missing.helps, "`--sources` writes all but the image")
        raise Failure(missing.text, *helps, status=FINDINGS) from missing
    except CompilerRefused as refused:
        print(clean_lines(refused.failure.output.rstrip()), file=sys.stderr)
        raise Failure(
            f"{refused.failure.compiler.title} refused the firmware, and nothing was written",
            "this is an error in matrixgen or in the compiler, not in your file: please report it",
        ) from refused
    except OSError as error:
        raise Failure(f"the compiler could not be run: {reason_of(error)}") from error


def folders_of(arguments: argparse.Namespace, name: str, profiles: Sequence[Profile]) -> list[Path]:
    """Return where each controller's files go."""
    out = Path(arguments.out or name)
    return [out / one.name if arguments.all else out for one in profiles]


def write_folders(
    arguments: argparse.Namespace, folders: Sequence[Path], contents: Sequence[Mapping[str, bytes]]
) -> None:
    """Write what goes into each; raises `Failure`, mostly before any of them is written."""
    held = holds_a_build(folders[0].parent) if arguments.all else None
    refused = [held, *map(not_ours, folders)]
    written = (write_folder(*one) for one in zip(folders, contents, strict=True))
    if reason := next(filter(None, refused), None) or next(filter(None, written), None):
        raise Failure(reason, "name another folder with -o")
