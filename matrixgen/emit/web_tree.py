"""A keyboard's engine for a page, as a tree of files: what of its firmware needs no controller."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from matrixgen.boards import Datasheet, Mounted, Profile
from matrixgen.emit.conditions import decided_tree
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.firmware_tree import OF_USB, all_rendered, files_of, port_sources, target_of
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.model import BootLoader, Keyboard, Mounting, Span, Word, matrix_of
from matrixgen.record import changed
from matrixgen.resources import resource

PORT = "web"

OF_THE_LOOP = ("loop.c", "loop.h")
"""What a chip's own loop needs of `engine/`: sleep and watchdog. A page lets time pass itself."""

NO_CONTROLLER = Profile(
    name="page",
    title="a page, which has no pins",
    chip="",
    family="",
    port=None,
    proof="builds",
    datasheet=Datasheet("", "", ""),
    clock_hz=1,
    supply_volts=1.0,
    flash_bytes=0,
    ram_bytes=0,
    boot_loader_bytes=0,
    pull_up_ohm_min=1.0,
    pull_up_ohm_max=1.0,
    input_low_volts=0.0,
    input_high_volts=0.5,
    pin_farad=0.0,
    output_low_ohm=1.0,
    sink_ampere=None,
    total_sink_ampere=None,
    sources=(),
    pins=(),
    edges=(),
)
"""A controller without pins, for the view's sake: no file of the tree tells of any of this."""


def has_matrix(keyboard: Keyboard) -> bool:
    """Whether some key has a place in the matrix, so that there is anything to press."""
    return bool(matrix_of(keyboard).contacts)


def web_view(keyboard: Keyboard, source_path: str) -> FirmwareView:
    """Return the view of a keyboard that has a matrix; controller and pins it need not have.

    `source_path` is the file it was read from.
    """
    nowhere = Word(NO_CONTROLLER.name, Span.start_of(source_path))
    mounted = Mounted(_pressable(keyboard), Mounting(nowhere, {}), NO_CONTROLLER)
    return firmware_view(mounted, source_path, PORT)


def _pressable(keyboard: Keyboard) -> Keyboard:
    """Return a draft without keys to hold for the boot loader of which one has no place yet."""
    wired = {contact.key for contact in matrix_of(keyboard).contacts}
    if {word.text for word in keyboard.boot_loader.hold} <= wired:
        return keyboard
    return changed(keyboard, boot_loader=BootLoader())


def web_tree(view: FirmwareView) -> dict[str, bytes]:
    """Return every file by its relative path, with slashes, sorted."""
    return decided_tree(all_rendered(_sources(), view))


def _sources() -> Iterator[tuple[str, Path]]:
    """Yield where each file goes and where it comes from."""
    root = resource("templates") / "firmware"
    for name, left_out in (("engine", OF_THE_LOOP), ("tables", OF_USB)):
        for source in files_of(root / name):
            if source.name not in left_out:
                yield target_of(source.relative_to(root).as_posix()), source
    yield from port_sources(PORT)
