"""A text that takes another's place, in the fewest lines; and the canonical form."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from matrixgen.editor.open_file import OpenText
from matrixgen.format.formatted import formatted
from matrixgen.model import Edit, SourceText, Span
from matrixgen.source.tree import BlockTree


def edits_to(source: SourceText, new: str) -> list[Edit]:
    """Return the edits, of whole lines, that make another text of one."""
    now = SourceText(source.path, new)
    old_lines, new_lines = source.lines, now.lines
    matcher = SequenceMatcher(None, old_lines, new_lines, autojunk=False)
    return [
        _edit(source, (start, end), new_lines[first:last])
        for what, start, end, first, last in matcher.get_opcodes()
        if what != "equal"
    ]


def _edit(source: SourceText, old: tuple[int, int], new: tuple[str, ...]) -> Edit:
    """Return the edit that puts lines into the place of others, numbered from 0."""
    start, end = old
    lines = source.lines
    if end < len(lines):
        span = Span.over(source.path, (start + 1, 1), (end + 1, 1))
        return Edit(span, "".join(f"{line}\n" for line in new))
    if start == 0:
        return Edit(Span.over(source.path, (1, 1), source.end), "\n".join(new))
    span = Span.over(source.path, (start, len(lines[start - 1]) + 1), source.end)
    return Edit(span, "".join(f"\n{line}" for line in new))


def at_the_end(text: OpenText, block: BlockTree, statement: str) -> Edit:
    """Return the edit that adds a statement to a block, indented as the last one is."""
    line = block.last.last_line
    indent = block.last.pieces[0].text if block.statements else "  "
    end = Span.in_line(text.source.path, line, len(text.source.line(line)) + 1, 0)
    return Edit(end, f"\n{indent}{statement}")


def canonical(text: OpenText, lines: range | None = None) -> Iterator[Edit]:
    """Yield the edits that put a file, or some lines of it, into the canonical form."""
    made = formatted(text.source)
    for edit in edits_to(text.source, made.text) if made.text is not None else ():
        if lines is None or edit.span.line in lines or touches(edit.span, lines):
            yield edit


def touches(span: Span, lines: range) -> bool:
    """Whether a span is in part on some lines, or ends right above them."""
    return span.line < lines.stop and span.end_line >= lines.start
