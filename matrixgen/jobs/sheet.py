"""From a file that reads to its bench sheet, or to its pictures."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.boards import Mounted
from matrixgen.emit.press_data import press_data
from matrixgen.emit.sheet import Sheet, back_svg, board_svg, front_svg, page, sheet_of
from matrixgen.jobs.examine import Examined
from matrixgen.jobs.press import press_data_of
from matrixgen.model import Design, SourceText
from matrixgen.routing import FindRoutes
from matrixgen.toolchain.web_engine import NoEngine

FRONT, BACK, BOARD = "front-", "back", ("controller", "controller-turned-over")
"""What pictures are called: of each layer, of the wires, of both sides of the controller."""

PAGE = "sheet.html"
"""What a build calls it."""

NOT_ASKED = NoEngine(
    "This page was made without a compiler (build --sources): matrixgen sheet makes one "
    "whose keys can be pressed."
)

HAS_ERRORS = NoEngine(
    "The file has errors, which this page lists: its keys can be pressed once they are corrected."
)


def bench_sheet(mounted: Mounted, source: SourceText, *, compiles: bool = True) -> bytes:
    """Return the page for a keyboard on a controller; its keys are live if it `compiles`."""
    keyboard = mounted.keyboard
    press = press_data_of(keyboard, source.path) if compiles else press_data(keyboard, NOT_ASKED)
    return page(sheet_of(mounted.keyboard, source.path, press, mounted))


def sheet_of_examined(
    examined: Examined,
    design: Design,
    mounted: Mounted | None,
    find: FindRoutes | None = None,
    waits: NoEngine | None = None,
) -> Sheet:
    """Return the sheet of a file that reads, with what was found in it: on a controller or on none.

    Its keys can only be pressed if it has no errors. `find` may have its routes from before, and
    `waits` is said of an engine that would have to be compiled.
    """
    pins = {line: words[0].text for line, words in design.pins.items() if words}
    keyboard, path = design.keyboard, design.source.path
    can_press = examined.is_sound
    press = press_data_of(keyboard, path, waits) if can_press else press_data(keyboard, HAS_ERRORS)
    found, missing = examined.findings, examined.missing
    return sheet_of(keyboard, path, press, mounted, pins, found, missing, examined.diode, find)


def picture_names(design: Design) -> list[str]:
    """Return what the pictures of a file are called, without drawing them."""
    found = [f"{FRONT}{layer.name.text}" for layer in design.keyboard.layers]
    return found + [BACK] * bool(design.keyboard.wiring.lines) + [*BOARD] * bool(design.controllers)


def pictures(sheet: Sheet) -> Mapping[str, bytes]:
    """Return each picture of a sheet as a file of its own, by what its name ends with."""
    found = {
        f"{FRONT}{layer.name}": front_svg(sheet.front, layer, alone=True, marks=sheet.style)
        for layer in sheet.layers
    }
    if sheet.back:
        found[BACK] = back_svg(sheet.back, alone=True, marks=sheet.style)
    if sheet.boards:
        found |= {
            name: board_svg(side, alone=True)
            for name, side in zip(BOARD, sheet.boards, strict=True)
        }
    return {f"{name}.svg": text.encode("utf-8") for name, text in found.items()}
