"""What ends a ghost: diodes, as words to a maker and as an edit of the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from matrixgen.boards import USUAL_DIODE
from matrixgen.model import Contact, Edit, Fix, Span, Wiring, Word, common_diode
from matrixgen.model.prose import listed, quoted
from matrixgen.model.runs import in_runs
from matrixgen.rules.context import Context


def place_of(context: Context, back: Iterable[Contact]) -> Span:
    """Return the statement that lets current flow back through the first of some keys."""
    wiring = context.keyboard.wiring
    keys = {one.key for one in back}
    words = [word for word in wiring.without_diode if word.text in keys]
    if not words:
        return wiring.drive_span
    place = words[0].span
    return next((span for span in wiring.without_spans if span.holds(place)), place)


def diodes_help(context: Context, keys: Sequence[str], then: str) -> str:
    """Return which keys to give a diode, and what is so then."""
    wiring = context.keyboard.wiring
    each = " each" if len(keys) > 1 else ""
    which = f"{quoted(in_runs(keys, context.keyboard.place_of_key))} a diode{each}"
    if len(keys) == len({word.text for word in wiring.without_diode}):
        which = ("this key" if len(keys) == 1 else f"each of these {len(keys)} keys") + " a diode"
    return f"give {which}, band toward the {wiring.drive}s{_named_in(wiring)}: then {then}"


def diodes_fix(context: Context, keys: Sequence[str]) -> Fix | None:
    """Return the edit that takes keys off `without diode`, if it is clear how the rest is written.

    Where `diodes` says the other way than the scan, they come under `reversed` instead. It is not
    certain: somebody has to solder first.
    """
    wiring = context.keyboard.wiring
    edits = list(_edits(context, wiring, frozenset(keys)))
    if not edits or any(edit is None for edit in edits):
        return None
    which = listed(in_runs(keys, context.keyboard.place_of_key))
    says = f"remove {which} from `without diode`{_named_in(wiring)}: solder the diodes first"
    return Fix(says, tuple(edit for edit in edits if edit), is_certain=False)


def _named_in(wiring: Wiring) -> str:
    """Return where else the file has to name a key that gets a diode as the scan wants it."""
    return " and name it under `reversed`" if common_diode(wiring) == "away" else ""


def _edits(context: Context, wiring: Wiring, keys: frozenset[str]) -> Iterator[Edit | None]:
    """Yield an edit for each `without diode` that names one of the keys; None if there is none."""
    missing = wiring.diodes is None
    for span in wiring.without_spans:
        words = [word for word in wiring.without_diode if span.holds(word.span)]
        kept = [word for word in words if word.text not in keys]
        if len(kept) == len(words):
            continue
        statement = f"diodes {USUAL_DIODE}, band toward {wiring.drive}s" if missing else None
        missing = False
        if common_diode(wiring) == "away":
            given = [word.text for word in words if word.text in keys]
            statement = f"reversed {' '.join(in_runs(given, context.keyboard.place_of_key))}"
        if statement:
            yield _insertion(statement, span, is_alone=not kept)
        elif not kept:
            yield Edit.removing_lines(span)
        if kept:
            yield _rewritten(context, span, words, kept)


def _insertion(statement: str, span: Span, *, is_alone: bool) -> Edit:
    """Return the edit that writes a statement in the place of another, or before it."""
    if is_alone:
        return Edit(span, statement)
    return Edit(Span.in_line(span.path, span.line, span.column, 0), f"{statement}\n  ")


def _rewritten(
    context: Context, span: Span, words: Sequence[Word], kept: Sequence[Word]
) -> Edit | None:
    """Return the edit that names only some of a statement's keys; None if it has several lines."""
    if span.line != span.end_line:
        return None
    text = " ".join(in_runs([word.text for word in kept], context.keyboard.place_of_key))
    return Edit(words[0].span.to(words[-1].span), text)
