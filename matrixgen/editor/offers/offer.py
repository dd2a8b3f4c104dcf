"""A word that is offered, and where it is to be written."""

from __future__ import annotations

from matrixgen.record import Record


class Offer(Record):
    """A word; a few words on it, and the grammar's terminal that it would be.

    The lower `rank`, the likelier it is: 0 is what the file is only waiting for.
    """

    text: str
    rank: float
    says: str = ""
    terminal: str = ""
