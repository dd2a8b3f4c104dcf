"""The blocks `plate` and `wiring`, which are not read again where they were before.

Most revisions of a file, and the sides of a merge, differ only in their layers, and a block that
was parsed before is the same tree (`by_block.py`). What was read from it is kept if nothing had
been found in the file by then.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.plate import Plate
from matrixgen.model.wiring import Wiring
from matrixgen.of_same import OfSame
from matrixgen.source.blocks.components import WiredComponents
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.blocks.plate import plate_of
from matrixgen.source.blocks.wiring import Pins, wiring_of
from matrixgen.source.names import Names
from matrixgen.source.reporter import Reporter

if TYPE_CHECKING:
    from matrixgen.source.letters import Letters
    from matrixgen.source.syntax import Node

Wired = tuple[Wiring, Pins, WiredComponents]

_plates = OfSame[Plate]()
_wirings = OfSame[tuple[Wired, int]]()


def plate_once(reporter: Reporter, block: Node, names: Names, letters: Letters) -> Plate:
    """Return the block `plate`; every key's name goes into `names`."""
    of, also = (block, letters.layout, reporter.limits), (reporter.path, letters.is_lost)
    known = _plates.get(*of, also=also)
    if known:
        for key in known.keys:
            names.define(key.name)
        return known
    plate = plate_of(reporter, block, names, letters)
    if reporter.is_clean:
        _plates.keep(plate, *of, also=also)
    return plate


def wiring_once(
    reporter: Reporter, block: Node, plate: Plate, keys: Keys, layers: list[str]
) -> Wired:
    """Return what the block `wiring` says; `keys` are those of the plate."""
    before = keys.in_runs
    of, also = (block, plate, reporter.limits), (reporter.path, before, tuple(layers))
    known = _wirings.get(*of, also=also)
    if known:
        keys.in_runs += known[1]
        return known[0]
    wired = wiring_of(reporter, block, keys, layers)
    if reporter.is_clean:
        _wirings.keep((wired, keys.in_runs - before), *of, also=also)
    return wired
