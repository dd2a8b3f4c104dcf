"""`matrixgen merge BASE OURS THEIRS`: two versions of a file to one, by what they say.

Git runs it as a merge driver, `matrixgen merge %O %A %B --path %P`: the result goes over OURS, and
the exit status is 0 where nothing is left to decide. Whatever happens, OURS then holds a merge,
be it git's own, since git would take what it finds there for one.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from matrixgen.cli.complain import FINDINGS, FINE
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.write_file import STANDARD_OUTPUT, put_out, write_bytes
from matrixgen.failure import Failure
from matrixgen.git import text_merge
from matrixgen.jobs.merge import NotMerged, merge_versions, new_errors
from matrixgen.merge import Merged
from matrixgen.model.prose import counted
from matrixgen.model.reason import reason_of
from matrixgen.reach import read_argument

MOST_BYTES = 64_000_000
"""What is read of a version: more than a keyboard may have, since git merges that by lines."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("base", metavar="BASE", help="the common version that both come from")
    parser.add_argument("ours", metavar="OURS", help="one version; the result is written over it")
    parser.add_argument("theirs", metavar="THEIRS", help="the other version")
    parser.add_argument("--path", metavar="NAME", help="the name of the file in messages")
    parser.add_argument(
        "-o", "--out", metavar="OUT", help="write the result there instead; - is stdout"
    )


def run(arguments: argparse.Namespace) -> int:
    """Merge, write the result and return the exit status: 1 for conflicts."""
    paths = [Path(one) for one in (arguments.base, arguments.ours, arguments.theirs)]
    shown = arguments.path or arguments.ours
    out = arguments.out or arguments.ours
    try:
        versions = [read_argument(path, MOST_BYTES) for path in paths]
    except OSError as error:
        name = getattr(error, "filename", None) or "a file"
        raise Failure(f"`{name}` cannot be read: {reason_of(error)}") from error
    merged = merge_versions(versions)
    if isinstance(merged, NotMerged):
        return _as_text(paths, merged, shown, out)
    _write(out, merged.text.encode())
    _tell_order(shown, merged.layers_put_in_order)
    if merged.conflicts:
        return _tell_conflicts(shown, merged)
    return _tell_new_errors(shown, [version.decode() for version in versions], merged.text)


def _write(out: str, data: bytes) -> None:
    """Write the result; raises `Failure`."""
    if out == STANDARD_OUTPUT:
        put_out(data)
    else:
        write_bytes(Path(out), data)


def _tell_order(shown: str, layers: Sequence[str]) -> None:
    """Say which layers lie as neither side asked for: the highest one that is on wins."""
    if layers:
        order = " above ".join(f"`{name}`" for name in layers)
        says = f"neither side decides how these layers lie: now {order}"
        print(f"{clean(shown)}: {clean(says)}; move their blocks to change it", file=sys.stderr)


def _tell_conflicts(shown: str, merged: Merged) -> int:
    """Say what is left to decide."""
    for about in merged.conflicts:
        print(f"{clean(shown)}: conflict: {clean(about)}", file=sys.stderr)
    print(f"    help: `matrixgen check {clean(shown)}` shows the lines", file=sys.stderr)
    return FINDINGS


def _tell_new_errors(shown: str, versions: list[str], text: str) -> int:
    """Say what is wrong with a merge that is not wrong with either side."""
    new = new_errors(shown, versions, text)
    if not new:
        return FINE
    tell(new, {shown: text})
    number = counted(len(new), "error")
    print(f"{clean(shown)}: merged, with {number} that neither side has", file=sys.stderr)
    return FINDINGS


def _as_text(paths: list[Path], refused: NotMerged, shown: str, out: str) -> int:
    """Write git's own merge, and say why it is not matrixgen's."""
    if refused.fault is not None:
        fault = repr(refused.fault)
        print(f"matrixgen: an error of its own: {fault}; please report it", file=sys.stderr)
    text = text_merge(paths[0], paths[1], paths[2])
    print(f"{clean(shown)}: merged line by line: {clean(refused.why)}", file=sys.stderr)
    _write(out, text.data)
    if not text.conflicts:
        return FINE
    print(f"{clean(shown)}: {counted(text.conflicts, 'conflict')}", file=sys.stderr)
    return FINDINGS
