"""Which statements a block has: those that may stand in it once, and those that must."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.span import Span
from matrixgen.source.reading import Reading, trees

if TYPE_CHECKING:
    from matrixgen.source.parser import Node

BLOCKS = ("keyboard", "plate", "wiring", "actions", "layer")

STATEMENT_BLOCKS = {
    "controller": "keyboard",
    "debounce": "keyboard",
    "maker": "keyboard",
    "usb": "keyboard",
    "boot-loader": "keyboard",
    "allow": "keyboard",
    "line": "plate",
    "cluster": "plate",
    "drive": "wiring",
    "diodes": "wiring",
    "without": "wiring",
    "reversed": "wiring",
    "settle": "wiring",
    "row": "wiring",
    "column": "wiring",
}


def report_misplaced(
    reading: Reading, keyword: str, block: str, span: Span, help: str | None = None
) -> None:
    """Report a statement that stands in a block that has no such statement."""
    reading.report(
        "misplaced-statement",
        span,
        f"the block `{block}` has no statement `{keyword}`",
        help=help or f"move it into the block `{STATEMENT_BLOCKS[keyword]}`",
    )


def statements_once(reading: Reading, parts: list[Node]) -> dict[str, Node]:
    """Return the statements by keyword; report each one after the first of its kind."""
    found: dict[str, Node] = {}
    for part in parts:
        keyword = str(part.data)
        first = found.setdefault(keyword, part)
        if first is not part:
            reading.report(
                "doubled-statement",
                reading.keyword(part, len(keyword)),
                f"`{keyword}` is here a second time",
                help="keep one of the two",
                notes=[Note("the first one is here", reading.keyword(first, len(keyword)))],
            )
    return found


def blocks_once(reading: Reading, file: Node) -> dict[str, Node]:
    """Return the blocks but the layers by keyword; report doubled and missing ones."""
    found: dict[str, Node] = {}
    for block in trees(file):
        keyword = str(block.data)
        first = found.setdefault(keyword, block)
        if first is not block and keyword != "layer":
            reading.report(
                "doubled-block",
                reading.keyword(block, len(keyword)),
                f"there is already a block `{keyword}`",
                help="put its lines into the first one",
                notes=[Note("the first one starts here", reading.keyword(first, len(keyword)))],
            )
    _report_missing(
        reading, [name for name in ("keyboard", "plate", "wiring") if name not in found]
    )
    return found


def _report_missing(reading: Reading, missing: list[str]) -> None:
    """Report the blocks that every file needs, unless a broken line may have opened one."""
    if not missing or not reading.is_whole:
        return
    blocks = " and no ".join(f"`{name}`" for name in missing)
    reading.report(
        "missing-block",
        reading.first_word(),
        f"the file has no block {blocks}",
        help="`matrixgen new NAME` writes a file that has all of them",
    )
