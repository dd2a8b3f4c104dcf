"""`matrixgen new NAME --from DRAWING`: the file is written, and what was not understood listed."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from matrixgen.boards import Profile
from matrixgen.boards.paths import as_written
from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.drawing import Leftover
from matrixgen.drawing.figures import LED_MM
from matrixgen.failure import Failure
from matrixgen.jobs.drawn import file_of_drawing
from matrixgen.model.prose import counted
from matrixgen.model.reason import helps_of, reason_of

MOST_LISTED = 20


def write_drawn(
    path: Path, name: str, profile: Profile | None, arguments: argparse.Namespace
) -> int:
    """Write the file of a drawing and return the exit status; what is unclear goes to stderr."""
    controller = profile.name if profile else None
    if profile and profile.path:
        controller = as_written(profile.path, path.parent)
    try:
        drawn = file_of_drawing(
            path,
            name,
            Path(arguments.drawing),
            controller=controller,
            is_mirrored=arguments.mirrored,
        )
    except OSError as error:
        return complain(f"`{arguments.drawing}`: {reason_of(error)}", *helps_of(error))
    write_new(path, drawn.text)
    print(f"{counted(drawn.keys, 'key')}, {counted(drawn.holes, 'screw hole')}")
    if drawn.maybe_leds:
        holes = counted(drawn.maybe_leds, "hole")
        print(f"{holes} of {LED_MM:g} mm, for an LED or a screw: see the comments in the file")
    for remark in drawn.remarks:
        print(f"note: {clean(remark)}", file=sys.stderr)
    _list_leftovers(drawn.leftovers)
    return FINE


def _list_leftovers(leftovers: Sequence[Leftover]) -> None:
    """Print what was not understood, with places in millimetres as the drawing has them."""
    if not leftovers:
        return
    print("in the drawing, but not in the file:", file=sys.stderr)
    for one in leftovers[:MOST_LISTED]:
        layer = f", layer `{one.layer}`" if one.layer else ""
        x, y = (f"{round(value, 2) + 0.0:.2f}" for value in one.at)  # not -0.00
        print(clean(f"  {one.what}, at {x}, {y} mm{layer}"), file=sys.stderr)
    if len(leftovers) > MOST_LISTED:
        print(f"  and {len(leftovers) - MOST_LISTED:,} more", file=sys.stderr)


def write_new(path: Path, text: str) -> int:
    """Write a file that is not there yet, whole or not at all; return 0 or raise `Failure`."""
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            try:
                file.write(text)
                file.flush()
            except OSError:
                path.unlink(missing_ok=True)  # it is ours: nobody had one of that name
                raise
    except FileExistsError as error:
        help = "choose another name, or move that file"
        raise Failure(f"`{path}` is there already", help) from error
    except OSError as error:
        raise Failure(f"`{path}` cannot be written: {reason_of(error)}") from error
    print(f"wrote {clean(str(path))}")
    return FINE
