"""`matrixgen show FILE`: the plate and its layers, drawn in letters."""

from __future__ import annotations

import argparse
import shutil
from collections.abc import Iterator

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.wanted import report
from matrixgen.draw import plate_rows, widest_unit
from matrixgen.draw.caps import cut, keycap_of
from matrixgen.jobs.examine import examine
from matrixgen.model import Keyboard, Layer
from matrixgen.model.prose import quoted
from matrixgen.model.similar import similar_help

INHERITED = "."
"""What stands on a key that a layer leaves to those below."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "file", metavar="FILE", help="a .keys file, finished or not, or - for stdin"
    )
    parser.add_argument("--layer", metavar="NAME", help="draw only this layer")
    parser.add_argument(
        "--width",
        metavar="COLUMNS",
        type=int,
        help="how wide the drawing may be (default: as wide as the terminal)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Draw each layer, or the one that was asked for; return the exit status."""
    examined = examine(arguments.file)
    if not examined.is_sound or examined.design is None:
        return report(examined, examined.findings)
    keyboard = examined.design.keyboard
    layers = [one for one in keyboard.layers if arguments.layer in (None, one.name.text)]
    if not layers:
        return _no_layer(arguments.layer, keyboard)
    width = arguments.width or shutil.get_terminal_size().columns
    print("\n".join(_drawn(keyboard, layers, max(width, 20))))
    return FINE


def _no_layer(name: str, keyboard: Keyboard) -> int:
    names = [layer.name.text for layer in keyboard.layers]
    help = similar_help(name, names) or f"it has {quoted(names)}"
    return complain(f"the file has no layer `{name}`", help)


def _drawn(keyboard: Keyboard, layers: list[Layer], width: int) -> Iterator[str]:
    unit = widest_unit(keyboard.keys, width - 1)
    for number, layer in enumerate(layers):
        if number:
            yield ""
        needs = " and ".join(word.text for word in layer.needs)
        yield f"layer {clean(layer.name.text)}" + (
            f", while {clean(needs)} are on" if needs else ""
        )
        yield ""
        for row in plate_rows(keyboard.keys, (_caps(keyboard, layer, unit),), unit):
            yield from (cut(line, width) for line in row)


def _caps(keyboard: Keyboard, layer: Layer, unit: int) -> dict[str, str]:
    """Return what stands on each key of a layer."""
    caps = {}
    for key in keyboard.keys:
        action = layer.action_of(key.name.text)
        room = max(int(unit * key.width), unit) - 1
        caps[key.name.text] = clean(keycap_of(action, room)) if action else INHERITED
    return caps
