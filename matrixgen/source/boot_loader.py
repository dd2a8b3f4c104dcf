"""The statements `boot-loader` of the block `keyboard`: how an image can be loaded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.keyboard import BootLoader
from matrixgen.source.names import Names
from matrixgen.source.reading import Reading, tokens, trees
from matrixgen.source.wiring import known_key

if TYPE_CHECKING:
    from matrixgen.source.parser import Node

KEYWORD = "boot-loader"

_FORMS = {"boot_hold": f"{KEYWORD} hold", "double_reset": f"{KEYWORD} double reset"}


def boot_loader_of(reading: Reading, block: Node | None, keys: Names) -> BootLoader:
    """Return what the block `keyboard` says of the boot loader; each key has to be of `keys`."""
    found: dict[str, Node] = {}
    for part in trees(block) if block else ():
        kind = str(part.data)
        if kind in _FORMS and found.setdefault(kind, part) is not part:
            _report_doubled(reading, part, found[kind])
    hold, double_reset = found.get("boot_hold"), found.get("double_reset")
    words = tokens(hold) if hold else ()
    return BootLoader(
        tuple(known_key(reading, word, keys) for word in words),
        reading.whole(hold) if hold else None,
        reading.whole(double_reset) if double_reset else None,
    )


def _report_doubled(reading: Reading, part: Node, first: Node) -> None:
    """Report a second statement of one form; one of each may stand side by side."""
    form = _FORMS[str(part.data)]
    reading.report(
        "doubled-statement",
        reading.keyword(part, len(KEYWORD)),
        f"`{form}` is here a second time",
        help="keep one of the two",
        notes=[Note("the first one is here", reading.keyword(first, len(KEYWORD)))],
    )
