"""The bench's firmware as a tree of files: another program on the same ports."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from matrixgen.emit.bench_view import BenchView
from matrixgen.emit.conditions import decided_tree
from matrixgen.emit.firmware_tree import OF_USB, all_rendered, files_of, port_sources, target_of
from matrixgen.resources import resource

SHARED_USB = (
    "answer.c",
    "answer.h",
    "chapter9.c",
    "chapter9.h",
    "class.h",
    "control.c",
    "control.h",
    "descriptors.h",
    "request.h",
    "standard.h",
    "state.c",
    "state.h",
)
"""What a keyboard and a serial port have in common; the rest is in `usb_serial`."""

OF_A_SCAN = "port/scan.c"
"""What a port may have for a keyboard's many scans alone."""

PAGE = "README.md"
"""The page of the protocol, beside the sources, which goes to the top of the output folder."""


def bench_tree(view: BenchView) -> dict[str, bytes]:
    """Return every file of `firmware/` by its relative path, with slashes, sorted."""
    return decided_tree(whole_bench_tree(view))


def whole_bench_tree(view: BenchView) -> dict[str, bytes]:
    """Return every file as it lies in `templates/firmware`, with all that keyboards have."""
    return all_rendered(_sources(view.port), view)


def bench_page() -> bytes:
    """Return the page of the protocol."""
    return (resource("templates") / "firmware" / "bench" / PAGE).read_bytes()


def _sources(port: str) -> Iterator[tuple[str, Path]]:
    """Yield where each file goes and where it comes from."""
    root = resource("templates") / "firmware"
    bench = root / "bench"
    for source in files_of(bench):
        place = target_of(source.relative_to(bench).as_posix())
        if place != PAGE:
            at_top = place == "main.c" or place.startswith("tables/")
            yield (place if at_top else f"bench/{place}"), source
    for source in files_of(root / "usb_serial"):
        yield f"usb/{source.name}", source
    for name in SHARED_USB:
        yield f"usb/{name}", root / "usb" / name
    for name in OF_USB:
        yield f"tables/{target_of(name)}", root / "tables" / name
    for target, source in port_sources(port):
        if target != OF_A_SCAN:
            yield target, source
