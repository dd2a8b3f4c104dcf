"""The firmware as a tree of files: the generated tables beside the sources that never change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from matrixgen.emit.conditions import decided_tree
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.jinja import environment
from matrixgen.emit.tree_readme import with_readme
from matrixgen.emit.tree_view import TreeView
from matrixgen.resources import resource

FOLDERS = ("engine", "main.c", "tables", "usb")
"""What a keyboard's tree takes of `templates/firmware` besides its port."""

OF_ALL_PORTS = ("memory.c", "port.h")
"""What stands in the folder of all ports, and goes into `port/` with one of them."""

OF_USB = ("identity.h.j2", "table_identity.c.j2")
"""What of `tables/` is for USB alone: a bench has it, and a page has not."""


def firmware_tree(view: FirmwareView) -> dict[str, bytes]:
    """Return every file of `firmware/` by its relative path, with slashes, sorted.

    A file `NAME.j2` is rendered with `view` and becomes `NAME`; any other is copied. The folder of
    the chip family becomes `port/`, and its Makefile the tree's own.
    """
    return with_readme(decided_tree(whole_tree(view)), view)


def whole_tree(view: FirmwareView) -> dict[str, bytes]:
    """Return every file as it lies in `templates/firmware`, with all that other keyboards have."""
    return all_rendered(_sources(view.port), view)


def all_rendered(sources: Iterable[tuple[str, Path]], view: TreeView) -> dict[str, bytes]:
    """Return the content of each file by where it goes, sorted."""
    return dict(sorted((target, rendered(source, view)) for target, source in sources))


def _sources(port: str) -> Iterator[tuple[str, Path]]:
    """Yield where each file goes and where it comes from."""
    root = resource("templates") / "firmware"
    for place in (root / name for name in FOLDERS):
        for source in files_of(place) if place.is_dir() else (place,):
            yield target_of(source.relative_to(root).as_posix()), source
    yield from port_sources(port)


def port_sources(port: str) -> Iterator[tuple[str, Path]]:
    """Yield where each file of a chip family goes, and where it comes from."""
    ports = resource("templates") / "firmware" / "ports"
    for name in OF_ALL_PORTS:
        yield f"port/{name}", ports / name
    folder = ports / port
    for source in files_of(folder):
        if source.parent.name == "chips":  # a template of the port picks the one it needs
            continue
        target = target_of(source.relative_to(folder).as_posix())
        yield (target if target == "Makefile" else f"port/{target}"), source


def files_of(folder: Path) -> list[Path]:
    """Return what belongs to a firmware: no hidden files, no editor's left-overs."""
    paths = (path for path in folder.rglob("*") if not path.name.startswith("."))
    kept = (path for path in paths if not path.name.endswith("~") and path.is_file())
    return sorted(kept, key=str)


def target_of(place: str) -> str:
    """Return what a file is called once it is rendered, or copied."""
    return place.removesuffix(".j2")


def rendered(source: Path, view: TreeView) -> bytes:
    """Return the content of a file: a template's with `view`, any other's as it is."""
    if source.suffix != ".j2":
        return source.read_bytes()
    place = source.relative_to(resource("templates")).as_posix()
    return environment().get_template(place).render(view=view).encode()
