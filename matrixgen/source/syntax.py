"""What to say of a line that cannot be read, taught by example: see `lessons.py`."""

from __future__ import annotations

from functools import cache

from matrixgen.model.span import Span
from matrixgen.source.lessons import DOES_NOT_FIT, ENDS_EARLY, FORMS, LESSONS, Lesson
from matrixgen.source.names import near_help
from matrixgen.source.parser import LINE_ENDS, Mistake, first_word, parse
from matrixgen.source.reading import Reading
from matrixgen.source.statements import BLOCKS, STATEMENT_BLOCKS, report_misplaced


def report_mistakes(reading: Reading, mistakes: list[Mistake]) -> None:
    """Report each line that cannot be read, once; of lines that lack their block, the first."""
    homeless: set[tuple[str, int]] = set()
    for mistake in mistakes:
        first = first_word(mistake.dropped)
        if mistake.dropped.startswith((" ", "\t")):
            missing = _missing_block(reading, mistakes, mistake, first)
            if missing is None or missing not in homeless:
                _report_indented(reading, mistake, first)
            if missing is not None:
                homeless.add(missing)
        else:
            _report_first_column(reading, mistake, first)


def _report_first_column(reading: Reading, mistake: Mistake, first: str) -> None:
    """Report a line in the first column: a block's first line, or what should be none."""
    span = _span(reading, mistake.line, 1, first)
    if first in BLOCKS:
        _report_lesson(reading, mistake, first)
    elif first in STATEMENT_BLOCKS:
        reading.report(
            "misplaced-statement",
            span,
            f"`{first}` is in the first column, where only a block can start",
            help=f"indent it below the line `{STATEMENT_BLOCKS[first]}`",
        )
    else:
        help = near_help(first, BLOCKS) or f"the blocks are {', '.join(BLOCKS)}"
        reading.report("unknown-block", span, f"there is no block `{first}`", help=help)


def _report_indented(reading: Reading, mistake: Mistake, first: str) -> None:
    """Report a broken line of a block: of another block, of none, or with a wrong word in it."""
    block = _block_above(reading, mistake.line)
    span = _span(reading, mistake.line, 1 + mistake.dropped.index(first), first)
    belongs = STATEMENT_BLOCKS.get(first) == block
    if first in BLOCKS:
        message = f"the block `{first}` is indented, so that it is part of the block above"
        reading.report("misplaced-statement", span, message, help="start it in the first column")
    elif block is None:
        message = "an indented line belongs to a block, and there is none above it"
        reading.report("misplaced-statement", span, message, help=_home_help(first))
    elif first in STATEMENT_BLOCKS and not belongs:
        has_home = _has_block(reading, STATEMENT_BLOCKS[first])
        report_misplaced(reading, first, block, span, None if has_home else _home_help(first))
    elif belongs or block in ("actions", "layer"):
        _report_lesson(reading, mistake, first)
    else:
        own = [word for word, home in STATEMENT_BLOCKS.items() if home == block]
        help = near_help(first, own) or f"its statements are {', '.join(own)}"
        message = f"the block `{block}` has no statement `{first}`"
        reading.report("unknown-statement", span, message, help=help)


def _missing_block(
    reading: Reading, mistakes: list[Mistake], mistake: Mistake, first: str
) -> tuple[str, int] | None:
    """Return what is the same for all lines that one missing block left behind; None for others.

    A block is missing where nothing stands above an indented line, where the block's own line is
    indented, and where the file has none for this statement.
    """
    header = _header_above(reading, mistake.line)
    if header == 0:
        return "", 0
    for other in mistakes:
        word = first_word(other.dropped)
        if header < other.line <= mistake.line and word in BLOCKS:
            return word, header
    home = STATEMENT_BLOCKS.get(first)
    return (home, 0) if home and not _has_block(reading, home) else None


def _has_block(reading: Reading, block: str) -> bool:
    return any(text.startswith(block) for text in reading.source.lines)


def _home_help(first: str) -> str:
    if first in STATEMENT_BLOCKS:
        return f"put a line `{STATEMENT_BLOCKS[first]}` above it"
    return f"the blocks are {', '.join(BLOCKS)}, each in the first column"


def _block_above(reading: Reading, line: int) -> str | None:
    """Return the first word of the block that a line belongs to."""
    header = _header_above(reading, line)
    return first_word(reading.source.lines[header - 1]) if header else None


def _header_above(reading: Reading, line: int) -> int:
    """Return the number of the line that opens the block a line belongs to; 0 if there is none."""
    for number in range(line - 1, 0, -1):
        text = reading.source.lines[number - 1]
        if text and text[0] not in " \t#":
            return number
    return 0


def _report_lesson(reading: Reading, mistake: Mistake, first: str) -> None:
    span = _span(reading, mistake.line, mistake.column, mistake.found)
    lesson = lesson_for(mistake)
    if lesson is not None:
        message, help = lesson.message, lesson.help
    else:
        message = ENDS_EARLY if mistake.kind in LINE_ENDS else DOES_NOT_FIT
        help = f"such a line is written `{FORMS[first]}`" if first in FORMS else None
    reading.report("syntax", span, message.format(found=mistake.found), help=help)


def _span(reading: Reading, line: int, column: int, text: str) -> Span:
    return Span(reading.path, line, column, line, column + len(text))


def lesson_for(mistake: Mistake) -> Lesson | None:
    """Return the lesson whose broken snippet stops the parser in the same state, if one does."""
    if mistake.kind == "" and mistake.found.startswith('"'):
        return LESSONS["open-quote"]
    if mistake.kind == "" and not mistake.found.strip():
        return LESSONS["odd-blank"]
    taught, (state, kind) = _taught(), _situation(mistake)
    return taught.get((state, kind)) or taught.get((state, None))


@cache
def _taught() -> dict[tuple[int, str | None], Lesson]:
    """Return the lessons by the situations that their snippets end in.

    A lesson is for the kind of token of its snippets, and for other kinds too where it is the
    first one for the parser's state.
    """
    taught: dict[tuple[int, str | None], Lesson] = {}
    for lesson in LESSONS.values():
        for snippet in lesson.broken:
            state, kind = _situation(parse(snippet, 1).mistakes[0])
            taught.setdefault((state, kind), lesson)
            taught.setdefault((state, None), lesson)
    return taught


def _situation(mistake: Mistake) -> tuple[int, str]:
    """Return the parser's state and the kind of token it met; all line ends are one kind."""
    return mistake.state, "end" if mistake.kind in LINE_ENDS else mistake.kind
