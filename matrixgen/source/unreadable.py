"""What to say of a line that cannot be read, taught by example: see `lessons`."""

from __future__ import annotations

from matrixgen.model.diagnostic import Fix, Note
from matrixgen.model.text import Edit, Span
from matrixgen.similar import similar_help
from matrixgen.source.blocks.given_once import report_misplaced
from matrixgen.source.lessons import lesson_for, read_cure, shown_line
from matrixgen.source.not_yet import not_there_yet
from matrixgen.source.parser import LINE_ENDS, Mistake, first_word
from matrixgen.source.parts import WIRES
from matrixgen.source.phrases import FIRST_WORDS
from matrixgen.source.reporter import Reporter
from matrixgen.source.slips import report_slip
from matrixgen.source.statements import BEGIN_WITH_NAMES, BLOCK_OF, BLOCKS, KEYWORDS, form_of
from matrixgen.source.unknown_statement import report_unknown

ENDS_EARLY = "the line ends too early after `{found}`"
DOES_NOT_FIT = "`{found}` does not fit here"


def report_mistakes(reporter: Reporter, mistakes: list[Mistake]) -> None:
    """Report each line that cannot be read, once; of lines that lack their block, the first."""
    reported: set[tuple[str, int]] = set()
    for mistake in mistakes:
        if not mistake.is_indented:
            _report_first_column(reporter, mistake)
            continue
        missing = _missing_block(reporter, mistakes, mistake)
        if missing is None or missing not in reported:
            _report_indented(reporter, mistake)
        if missing is not None:
            reported.add(missing)


def _report_first_column(reporter: Reporter, mistake: Mistake) -> None:
    """Report a line in the first column: a block's first line, or what should be none."""
    first = mistake.first_word
    span = Span.in_line(reporter.path, mistake.first_line, 1, len(first))
    if first in BLOCKS:
        _report_lesson(reporter, mistake)
    elif first in BLOCK_OF:
        above = _block_above(reporter, mistake.first_line)
        indent = (Edit(Span.in_line(reporter.path, mistake.first_line, 1, 0), "  "),)
        reporter.report(
            "misplaced-statement",
            span,
            f"`{first}` is in the first column, where only a block can start",
            help=f"indent it below the line `{BLOCK_OF[first]}`",
            fix=Fix(f"indent `{first}`", indent) if above == BLOCK_OF[first] else None,
        )
    else:
        help = similar_help(first, BLOCKS)
        lacking = None if help else not_there_yet(first)
        help = help or (None if lacking else f"the blocks are {', '.join(BLOCKS)}")
        notes = [Note(lacking)] if lacking else []
        message = f"there is no block `{first}`"
        reporter.report("unknown-block", span, message, help=help, notes=notes)


def _report_indented(reporter: Reporter, mistake: Mistake) -> None:
    """Report a broken line of a block: of another block, of none, or with a wrong word in it."""
    first, block = mistake.first_word, _block_above(reporter, mistake.first_line)
    indent = mistake.dropped.index(first)
    span = Span.in_line(reporter.path, mistake.first_line, 1 + indent, len(first))
    belongs = first in KEYWORDS.get(block or "", ())
    if first in BLOCKS:
        so = (
            "so it is part of the block above"
            if block
            else "and a block starts in the first column"
        )
        is_there = BLOCKS[first].often == "once" and _has_block(reporter, first)
        blanks = (Edit(Span.in_line(reporter.path, mistake.first_line, 1, indent), ""),)
        reporter.report(
            "misplaced-statement",
            span,
            f"the block `{first}` is indented, {so}",
            help="start it in the first column",
            fix=None if is_there else Fix(f"start `{first}` in the first column", blanks),
        )
    elif block is None:
        message = "an indented line belongs to a block, and there is none above it"
        reporter.report("misplaced-statement", span, message, help=_block_help(first))
    elif first == "and":
        _report_lone_and(reporter, span)
    elif (
        first in BLOCK_OF
        and not belongs
        and not (first in FIRST_WORDS and block in BEGIN_WITH_NAMES)
    ):
        help = None if _has_block(reporter, BLOCK_OF[first]) else _block_help(first)
        if block == "plate" and first in WIRES:
            help = _row_of_switches(mistake.dropped) or help
        report_misplaced(reporter, first, block, span, help)
    elif belongs or block in BEGIN_WITH_NAMES or block not in BLOCKS:
        if not (
            (block == "layer" and _report_tap_in_picture(reporter, mistake))
            or report_slip(reporter, mistake, block)
        ):
            _report_lesson(reporter, mistake)
    elif not _report_backslash(reporter, mistake.first_line, span):
        report_unknown(reporter, block, first, span)


def _row_of_switches(statement: str) -> str | None:
    """Return the cure of a `row` of the plate that has no pin, as a wire has."""
    first, *keys = statement.partition("#")[0].split()
    if first != "row" or not keys or "on" in keys or "\n" in statement:
        return None
    return f"a row of switches is written `line {' '.join(keys)}`"


def _report_lone_and(reporter: Reporter, span: Span) -> None:
    reporter.report(
        "syntax",
        span,
        "nothing follows `and`, which goes on with the line above",
        help="write the rest of that line after it, or remove it",
    )


def _report_backslash(reporter: Reporter, line: int, first: Span) -> bool:
    """Report that a line was to go on after a backslash at its end; False where it was not."""
    above = line - 1
    text = reporter.source.line(above).partition("#")[0].rstrip()
    if not text.endswith((" \\", "\t\\")):
        return False
    sign = Span.in_line(reporter.path, above, len(text), 1)
    reporter.drop("\\")
    edits = (Edit(sign, ""), Edit(Span.in_line(reporter.path, line, first.column, 0), "and "))
    reporter.report(
        "syntax",
        sign,
        "a line does not go on after a `\\` at its end",
        help="begin the next line with `and`, indented, and it goes on with this one",
        fix=Fix("go on with `and`", edits, is_certain=False),  # `\` is a key as well
    )
    return True


def _report_tap_in_picture(reporter: Reporter, mistake: Mistake) -> bool:
    """Report a tap and hold among the cells of a picture; False where there is none."""
    before = mistake.dropped[: mistake.place].rpartition("\n")[2]
    words = before.split()
    if mistake.found != "," or "=" in words or words[-2:-1] != ["tap"]:
        return False
    start = before.rindex("tap")
    reporter.report(
        "phrase-in-picture",
        Span.in_line(reporter.path, mistake.line, start + 1, len(before) - start),
        f"`{before[start:]}, ...` is a phrase, and a cell of a picture is one word",
        help=(
            "give it a name in the block `actions`, as in `more = tap A, hold Ctrl`",
            "or make the layer a list, as in `KEY = tap A, hold Ctrl`",
        ),
    )
    return True


def _missing_block(
    reporter: Reporter, mistakes: list[Mistake], mistake: Mistake
) -> tuple[str, int] | None:
    """Return what is the same for all lines that one missing block left behind; None for others.

    A block is missing where nothing stands above an indented line, where the block's own line is
    indented, and where the file has none for this statement.
    """
    header = reporter.source.header_of(mistake.first_line - 1)
    if header == 0:
        return "", 0
    for other in mistakes:
        word = other.first_word
        if header < other.first_line <= mistake.first_line and word in BLOCKS:
            return word, header
    above = _block_above(reporter, mistake.first_line)
    if mistake.first_word in KEYWORDS.get(above or "", ()):
        return None
    block = BLOCK_OF.get(mistake.first_word)
    return (block, 0) if block and not _has_block(reporter, block) else None


def _has_block(reporter: Reporter, block: str) -> bool:
    return any(text.startswith(block) for text in reporter.source.lines)


def _block_help(first: str) -> str:
    if first in BLOCK_OF:
        return f"put a line `{BLOCK_OF[first]}` above it"
    return f"the blocks are {', '.join(BLOCKS)}, each in the first column"


def _block_above(reporter: Reporter, line: int) -> str | None:
    """Return the first word of the block that a line belongs to."""
    header = reporter.source.header_of(line - 1)
    return first_word(reporter.source.lines[header - 1]) if header else None


def _report_lesson(reporter: Reporter, mistake: Mistake) -> None:
    span = Span.in_line(reporter.path, mistake.line, mistake.column, len(mistake.found))
    lesson = lesson_for(mistake)
    if lesson is not None:
        message, help = lesson.message, lesson.help
        if line := shown_line(mistake, lesson):
            help = f"write `{line}`"
        if mistake.kind in LINE_ENDS and message.startswith("expected "):
            message = message.replace(", found `{found}`", " after `{found}`")
    else:
        message = ENDS_EARLY if mistake.kind in LINE_ENDS else DOES_NOT_FIT
        form = form_of(mistake.first_word)
        help = f"such a line is written `{form}`" if form else ""
    reporter.report(
        "syntax",
        span,
        message.format(found=mistake.found),
        help=help or None,
        fix=read_cure(reporter, mistake, lesson) if lesson else None,
    )
