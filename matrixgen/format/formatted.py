"""A file in its canonical form, or why it has none."""

from __future__ import annotations

from matrixgen.format.same import says_the_same
from matrixgen.format.text import text_of
from matrixgen.model.diagnostic import Diagnostic
from matrixgen.model.text import SourceText
from matrixgen.record import Record
from matrixgen.source.design import design_of
from matrixgen.source.edits import usual_line_end
from matrixgen.source.tree import every_statement
from matrixgen.source.tree_reader import tree_of


class Formatted(Record, kw_only=True):
    """What became of a file: its text in the canonical form, or the findings that kept it back.

    Neither is there where the new text would not have said the same: a fault of this program.
    """

    text: str | None
    findings: tuple[Diagnostic, ...] = ()


def formatted(source: SourceText) -> Formatted:
    """Return a file in the canonical form. Its byte order mark and its kind of line end stay."""
    tree = tree_of(source)
    if any(statement.rule is None for statement in every_statement(tree)):
        return Formatted(text=None, findings=tuple(design_of(source)[1]))
    text = tree.mark + text_of(tree).replace("\n", usual_line_end(source.original))
    if text != source.original and not says_the_same(source, SourceText(source.path, text), tree):
        return Formatted(text=None)
    return Formatted(text=text)
