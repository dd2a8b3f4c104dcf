"""Which lesson a broken line teaches: the parser reads each lesson's snippets to find out."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit
from matrixgen.source.lesson_files import Lesson, every_lesson
from matrixgen.source.parser import LINE_ENDS, Mistake, parse
from matrixgen.source.patterns import pattern
from matrixgen.source.reporter import Reporter
from matrixgen.source.slip import span_in
from matrixgen.usages.us_layout import us_press_of

CONTROL = r"[\x00-\x1f\x7f]"

OPEN_QUOTE = Lesson(
    message="the quote that starts here has no end on its line",
    help='close it, as in `"Heron 12"`; a quote inside is written `\\"`',
)
TAB_IN_QUOTES = Lesson(
    message="a tab is not allowed between quotes",
    help="write spaces instead",
)
TAB_IN_TEXT = Lesson(
    message=TAB_IN_QUOTES.message,
    help='its key is called `Tab`, as in `type "a", then Tab, then type "b"`',
)
CONTROL_IN_QUOTES = Lesson(
    message="a control character is not allowed between quotes",
    help='remove it; such keys are written by name, as in `type "a", then Enter`',
)
ODD_BLANK = Lesson(
    message="this character looks like a space, but is neither a space nor a tab",
    help="put a plain space in its place",
)


def lesson_for(mistake: Mistake) -> Lesson | None:
    """Return the lesson whose broken snippet stops the parser in the same state, if one does."""
    if mistake.kind == "" and mistake.found.startswith('"'):
        if "\t" in mistake.found:
            before = mistake.dropped[: mistake.place].split()
            return TAB_IN_TEXT if before[-1:] == ["type"] else TAB_IN_QUOTES
        return CONTROL_IN_QUOTES if pattern(CONTROL).search(mistake.found) else OPEN_QUOTE
    if mistake.kind == "" and not mistake.found.strip():
        return ODD_BLANK
    taught = _taught()
    found = next((taught[one] for one in _situations(mistake) if one in taught), None)
    if found and found.types and mistake.kind == "":
        return _typed(mistake.found) or found
    return found


def _typed(sign: str) -> Lesson | None:
    """Return the lesson for a sign that some key types, with Shift on a US layout."""
    press = us_press_of(sign)
    if press is None:
        return None
    return Lesson(
        message="`{found}` is not a key: keys send positions, "
        "and the computer turns them into characters",
        help=f"`{press}` types it where the computer has a US layout",
    )


@cache
def _taught() -> dict[tuple[int, str], Lesson]:
    """Return the lessons by the situations that their snippets end in.

    A lesson is for just what its snippets were broken by, and for other words too where it is the
    first one for the parser's state.
    """
    taught: dict[tuple[int, str], Lesson] = {}
    for lesson in every_lesson():
        for snippet in lesson.broken:
            for situation in _situations(parse(snippet, 1).mistakes[0]):
                taught.setdefault(situation, lesson)
    return taught


def _situations(mistake: Mistake) -> Iterator[tuple[int, str]]:
    """Yield the parser's state with what it met, from the most exact to the least.

    All line ends are one kind. What is no word at all is told apart by its first sign, and by
    whether that sign stands alone.
    """
    if mistake.kind:
        yield mistake.state, "end" if mistake.kind in LINE_ENDS else mistake.kind
    else:
        more = "..." if len(mistake.found) > 1 else ""
        yield mistake.state, f"sign {mistake.found[:1]}{more}"
        yield mistake.state, "sign"
    yield mistake.state, ""


def read_cure(reporter: Reporter, mistake: Mistake, lesson: Lesson) -> Fix | None:
    """Return a lesson's cure as edits of the file, if there is just one."""
    if lesson.cure is None:
        return None
    edits = tuple(
        Edit(span_in(reporter, mistake, place, length), text)
        for place, length, text in lesson.cure(mistake.dropped, mistake.place)
    )
    return Fix(lesson.help, edits) if edits else None


def shown_line(mistake: Mistake, lesson: Lesson) -> str | None:
    """Return the statement as it should be, without its comment, where a lesson can show it."""
    text = mistake.dropped
    for place, length, new in lesson.shows(text, mistake.place) if lesson.shows else ():
        return (text[:place] + new + text[place + length :]).partition("#")[0].strip()
    return None
