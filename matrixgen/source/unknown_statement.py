"""A line whose first word begins no statement of its block."""

from __future__ import annotations

from matrixgen.model.diagnostic import Fix, Note
from matrixgen.model.text import Edit, Span
from matrixgen.similar import similar_help
from matrixgen.source.not_yet import not_there_yet, said_otherwise
from matrixgen.source.reporter import Reporter
from matrixgen.source.statements import BLOCKS, KEYWORDS

OF_COMPUTER = "the layout of the computer is written `computer LAYOUT`, as in `computer de`"

OTHER_WORDS = {
    "keyboard": {
        **dict.fromkeys(("layout", "language", "locale", "host"), OF_COMPUTER),
        "speed": "how fast keys type in turn is written `pace N ms`, as in `pace 8 ms`",
    }
}
"""What is written instead of a statement that somebody may expect, by its block."""


def report_unknown(reporter: Reporter, block: str, first: str, span: Span) -> None:
    """Report a first word at `span` that the block has no statement for, and what it may mean."""
    names = dict.fromkeys(one.called or one.keyword or "" for one in BLOCKS[block].statements)
    meant = next((name for name in names if _letters(name) == _letters(first)), None)
    near = similar_help(first, KEYWORDS[block])
    near = OTHER_WORDS.get(block, {}).get(first.casefold()) or near or said_otherwise(first)
    lacking = None if meant or near else not_there_yet(first)
    statements = None if lacking else f"its statements are {', '.join(names)}"
    reporter.report(
        "unknown-statement",
        span,
        f"the block `{block}` has no statement `{first}`",
        help=f"write `{meant}`" if meant else near or statements,
        notes=[Note(lacking)] if lacking else (),
        fix=Fix(f"write `{meant}`", (Edit(span, meant),)) if meant else None,
    )


def _letters(name: str) -> str:
    """Return a name in small letters, without what may part or join its words."""
    return "".join(letter for letter in name.casefold() if letter.isalnum())
