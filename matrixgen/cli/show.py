"""`matrixgen show FILE`: the plate and its layers, drawn in characters."""

from __future__ import annotations

import argparse
import gc
import shutil
import sys
from collections.abc import Iterator

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import is_screen
from matrixgen.cli.wanted import report
from matrixgen.computer.setting import layout_of
from matrixgen.draw import legend_lines
from matrixgen.draw.layer_text import drawn_layers
from matrixgen.jobs.examine import STANDARD_INPUT, Examined, examine
from matrixgen.jobs.follow import examined_saves
from matrixgen.model import Keyboard, Layer
from matrixgen.model.prose import quoted
from matrixgen.similar import similar_help

NARROWEST = 20
"""Columns of a drawing, at least."""

CLEARED = "\x1b[H\x1b[2J"
"""Puts the cursor home and clears the screen (ECMA-48, CUP and ED)."""


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
        help="how wide the drawing may be (default: as wide as the terminal); a row of keys that "
        "is too long even in short forms goes on in the next line",
    )
    parser.add_argument(
        "--watch",
        action="store_true",
        help="draw again at each save of FILE, until Ctrl+C; a terminal is cleared before",
    )


def run(arguments: argparse.Namespace) -> int:
    """Draw each layer, or the one that was asked for; return the exit status."""
    return _watch(arguments) if arguments.watch else _show(arguments, examine(arguments.file))


def _watch(arguments: argparse.Namespace) -> int:
    """Draw now and at each save, until Ctrl+C."""
    if arguments.file == STANDARD_INPUT:
        return complain("standard input cannot be followed", "name a file")
    gc.enable()  # it lives long
    begin = CLEARED if is_screen(sys.stdout) else ""
    try:
        for examined in examined_saves(arguments.file):
            print(end=begin, flush=True)
            _show(arguments, examined)
            sys.stdout.flush()
    except KeyboardInterrupt:
        print()
    return FINE


def _show(arguments: argparse.Namespace, examined: Examined) -> int:
    if not examined.is_sound or examined.design is None:
        return report(examined, examined.findings)
    keyboard = examined.design.keyboard
    layers = [one for one in keyboard.layers if arguments.layer in (None, one.name.text)]
    if not layers:
        return _no_layer(arguments.layer, keyboard)
    width = arguments.width or shutil.get_terminal_size().columns
    print("\n".join(map(clean, _lines(keyboard, layers, max(width, NARROWEST)))))
    return FINE


def _no_layer(name: str, keyboard: Keyboard) -> int:
    names = [layer.name.text for layer in keyboard.layers]
    help = similar_help(name, names) or f"it has {quoted(names)}"
    return complain(f"the file has no layer `{name}`", help)


def _lines(keyboard: Keyboard, layers: list[Layer], width: int) -> Iterator[str]:
    drawn = drawn_layers(keyboard.keys, layers, width, layout_of(keyboard))
    for layer, lines in zip(layers, drawn.layers, strict=True):
        needs = " and ".join(word.text for word in layer.needs)
        yield f"layer {layer.name.text}" + (f", while {needs} are on" if needs else "")
        yield from ("", *lines, "")
    yield from legend_lines(drawn.legend, width)
