"""The firmware as a tree of files: the generated tables beside the sources that never change."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from matrixgen.emit.firmware_view import FirmwareView
from matrixgen.emit.jinja import environment
from matrixgen.resources import resource


def firmware_tree(view: FirmwareView) -> dict[str, bytes]:
    """Return every file of `firmware/` by its relative path, with slashes, sorted.

    A file `NAME.j2` is rendered with `view` and becomes `NAME`; any other is copied. The folder of
    the chip family becomes `port/`, and its Makefile the tree's own.
    """
    made = {target: _content(source, view) for target, source in _sources(view.port)}
    return dict(sorted(made.items()))


def _sources(port: str) -> Iterator[tuple[str, Path]]:
    """Yield where each file goes and where it comes from."""
    root = resource("templates") / "firmware"
    for source in _files(root):
        place = source.relative_to(root)
        if place.parts[0] != "ports":
            yield _target(place.as_posix()), source
    yield "port/port.h", root / "ports" / "port.h"
    folder = root / "ports" / port
    for source in _files(folder):
        if source.parent.name == "chips":  # a template of the port picks the one it needs
            continue
        target = _target(source.relative_to(folder).as_posix())
        yield (target if target == "Makefile" else f"port/{target}"), source


def _files(folder: Path) -> list[Path]:
    """Return what belongs to the firmware: no hidden files, no editor's left-overs."""
    return sorted(
        path
        for path in folder.rglob("*")
        if path.is_file() and not path.name.startswith(".") and not path.name.endswith("~")
    )


def _target(place: str) -> str:
    return place.removesuffix(".j2")


def _content(source: Path, view: FirmwareView) -> bytes:
    if source.suffix != ".j2":
        return source.read_bytes()
    place = source.relative_to(resource("templates")).as_posix()
    return environment().get_template(place).render(view=view).encode()
