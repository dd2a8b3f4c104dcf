"""Blocks and statements given again that may be given once, or in a block that has none such."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix, Note
from matrixgen.model.text import Edit, Span
from matrixgen.source.reporter import Reporter, trees
from matrixgen.source.statements import BLOCK_OF, BLOCKS, STATEMENTS

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node


def once_each(reporter: Reporter, parts: Iterable[Node]) -> dict[str, Node]:
    """Return the statements that may stand once, by their rule; report each further one."""
    found: dict[str, Node] = {}
    for part in parts:
        rule = str(part.data)
        if STATEMENTS[rule].often == "once" and found.setdefault(rule, part) is not part:
            name = STATEMENTS[rule].called or rule
            fix = _repetition(reporter, part, found[rule], name)
            report_doubled(reporter, part, found[rule], name, fix)
    return found


def report_doubled(
    reporter: Reporter, part: Node, first: Node, name: str, fix: Fix | None = None
) -> None:
    """Report a second statement of a kind."""
    reporter.report(
        "duplicate-statement",
        reporter.keyword(part, len(name)),
        f"`{name}` is here a second time",
        help="keep one of the two",
        notes=[Note("the first one is here", reporter.keyword(first, len(name)))],
        fix=fix,
    )


def _repetition(reporter: Reporter, part: Node, first: Node, name: str) -> Fix | None:
    """Return the cure of a statement that only repeats an earlier one: for whoever asks for it."""
    if part != first:  # two trees are the same where their words are, however spaced
        return None
    edits = (Edit.removing_lines(reporter.whole(part)),)
    return Fix(f"remove the second `{name}`", edits, is_certain=False)


def blocks_once(reporter: Reporter, file: Node) -> dict[str, Node]:
    """Return the blocks that may stand once by keyword; report those that are doubled."""
    found: dict[str, Node] = {}
    for block in trees(file):
        keyword = str(block.data)
        first = found.setdefault(keyword, block)
        if first is not block and BLOCKS[keyword].often == "once":
            reporter.report(
                "duplicate-block",
                reporter.keyword(block, len(keyword)),
                f"there is already a block `{keyword}`",
                help="put its lines into the first one",
                notes=[Note("the first one starts here", reporter.keyword(first, len(keyword)))],
            )
    return found


def report_misplaced(
    reporter: Reporter, keyword: str, block: str, span: Span, help: str | None = None
) -> None:
    """Report a statement that stands in a block that has no such statement."""
    reporter.report(
        "misplaced-statement",
        span,
        f"the block `{block}` has no statement `{keyword}`",
        help=help or f"move it into the block `{BLOCK_OF[keyword]}`",
    )
