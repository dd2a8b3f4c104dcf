"""A knob of the block `wiring`: its name; its pins are read as those of every component."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.knob import Knob
from matrixgen.source.reporter import Reporter, tokens

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node


def knob_of(reporter: Reporter, statement: Node) -> Knob:
    """Return a knob as it is wired."""
    name = reporter.word(tokens(statement)[0])
    return Knob(name=name, span=reporter.whole(statement))
