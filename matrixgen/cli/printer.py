"""The printer: a finding, its source line, and carets under the place.

One finding looks like this:

    pad.keys:9:18: error[pin-used-twice]: `c1` and `c0` are both on `PB0`
      9 |   column c1 on PB0  B
        |                ^^^
        note: pad.keys:8:16: `c0` takes it here
        help: `PB1` is spare
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TextIO

from matrixgen.cli.fit_to_print import clean, width
from matrixgen.cli.said import note_findings
from matrixgen.model import Diagnostic, Severity, Span
from matrixgen.reach import read_shown

LONGEST, BEFORE = 200, 40
"""Letters of a line that are shown as a whole; of a longer one, how many before what is marked."""

MOST_BYTES = 1_000_000
"""The largest file that lines are shown of."""

_COLOURS = {Severity.ERROR: "\x1b[1;31m", Severity.WARNING: "\x1b[1;33m"}
_PLAIN = "\x1b[0m"


def wants_colour(stream: TextIO) -> bool:
    """Whether to print in colour: to a terminal, or anywhere where FORCE_COLOR is set.

    Where NO_COLOR is set, never (both variables: common practice, no-color.org for the one).
    """
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR"):
        return True
    return os.environ.get("TERM") != "dumb" and is_screen(stream)


def is_screen(stream: TextIO) -> bool:
    """Whether a stream goes to a terminal that does what escape sequences say."""
    if sys.platform == "win32":
        from matrixgen.cli.windows import takes_sequences

        return stream.isatty() and takes_sequences(stream)
    return stream.isatty()


def wants_colour_of_git(stream: TextIO) -> bool:
    """Whether git, were it to print there, would in colour, and no variable says otherwise.

    Git knows its settings, and whether what is printed goes to its pager.
    """
    if os.environ.get("NO_COLOR") or os.environ.get("FORCE_COLOR"):
        return wants_colour(stream)
    from matrixgen.git.program import ask_git  # only here: no other command needs it

    asked = ask_git("config", "--get-colorbool", "color.diff", str(stream.isatty()).lower())
    return asked.lines == ("true",)


def tell(findings: Sequence[Diagnostic], texts: dict[str, str]) -> None:
    """Print findings to standard error, an empty line between two; `texts` as for a `Printer`."""
    note_findings(findings)
    printer = Printer(texts, colour=wants_colour(sys.stderr))
    print("\n\n".join(map(printer.render, findings)), file=sys.stderr)


class Printer:
    """Turns findings into text. Reads each file it shows lines of once."""

    def __init__(self, texts: dict[str, str] | None = None, *, colour: bool = False) -> None:
        """`texts` holds what was already read, by path; other files are read when needed."""
        self._lines = {path: _split(text) for path, text in (texts or {}).items()}
        self._colour = colour

    def render(self, found: Diagnostic) -> str:
        """Return one finding as lines of text, without a line end after the last one."""
        kind = f"{found.severity.value}[{found.slug}]"
        if self._colour:
            kind = f"{_COLOURS[found.severity]}{kind}{_PLAIN}"
        lines = [f"{place(found.span)}: {kind}: {clean(found.message)}"]
        number = str(found.span.line)
        margin = " " * (len(number) + 2)
        source = self._line(found.span)
        if source:
            shown, marks = excerpt(source, found.span)
            lines.append(f"  {number} | {shown}")
            lines.append(f"{margin} | {marks}")
        lines += [f"{margin}       {clean(line)}".rstrip() for line in found.figure]
        for note in found.notes:
            where = f"{place(note.span)}: " if note.span else ""
            lines.append(f"{margin}   note: {where}{clean(note.text)}")
        lines += [f"{margin}   help: {clean(help)}" for help in found.helps]
        return "\n".join(lines)

    def _line(self, span: Span) -> str:
        if span.path not in self._lines:
            self._lines[span.path] = _read_lines(span.path)
        lines = self._lines[span.path]
        return lines[span.line - 1] if span.line <= len(lines) else ""


def place(span: Span) -> str:
    """Return `path:line:column`, as editors and terminals understand it."""
    return f"{clean(span.path)}:{span.line}:{span.column}"


def carets(line: str, span: Span) -> str:
    """Return the line that goes under `line`: blanks up to the span, then carets as wide as it."""
    start = span.column - 1
    end = span.end_column - 1 if span.end_line == span.line else len(line.rstrip())
    before, marked = line[:start], line[start:end]
    return " " * width(before) + "^" * max(width(marked), 1)


def excerpt(line: str, span: Span) -> tuple[str, str]:
    """Return a line as it is shown, and what goes under it: of a very long one, what is marked."""
    if len(line) <= LONGEST:
        return clean(line), carets(line, span)
    first = max(0, span.column - 1 - BEFORE)
    end = span.end_column if span.end_line == span.line else len(line) + 1
    last = min(max(end + BEFORE, first + LONGEST // 2), first + LONGEST)
    before, after = "…" if first else "", "…" if last < len(line) else ""
    cut = line[first:last]
    length = min(end, last + 1) - span.column
    moved = Span.in_line(span.path, 1, span.column - first, length)
    return f"{before}{clean(cut)}{after}", " " * len(before) + carets(cut, moved)


def _read_lines(path: str) -> list[str]:
    try:
        return _split(read_shown(Path(path), MOST_BYTES).decode("utf-8-sig", errors="replace"))
    except (OSError, ValueError):
        return []


def _split(text: str) -> list[str]:
    """Return the lines as the language counts them: form feeds and the like end none."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
