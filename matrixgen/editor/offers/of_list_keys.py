"""The keys that a list names, before `=`: near the others, and fitting what is behind it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.cells.around import HERE, CellsAround
from matrixgen.editor.offers.cells.in_phrases import before_names
from matrixgen.editor.offers.cells.likely import NEXT, VOTES, WAITED_FOR, likely
from matrixgen.editor.offers.of_layers import layer_cells
from matrixgen.editor.offers.offer import Offer
from matrixgen.model.knob import steps_of
from matrixgen.model.plate import stem_of
from matrixgen.source.blocks.pictures import SEE_THROUGH
from matrixgen.source.letters import name_of_key
from matrixgen.usages import is_word


def is_key_of_list(asked: Cursor) -> bool:
    """Whether the word before `=` is to be written."""
    if asked.block != "layer":
        return False
    if asked.word_after == "=":
        return True
    if "=" in asked.words_before:
        return asked.word_before not in ("=", ",") and not _is_in_phrase(asked)
    return _is_list(asked) and not asked.words_after


def _is_in_phrase(asked: Cursor) -> bool:
    """Whether the word before belongs to a phrase that a name has to follow."""
    return asked.word_before in before_names() or asked.words_before[-2:-1] == ("with",)


def _is_list(asked: Cursor) -> bool:
    """Whether the layer is a list so far, as far as its other lines tell."""
    words = [one.rule for one in asked.rest_of_file.all if one.block == "layer"]
    each = [*(rule for _, rule in layer_cells(asked)), *words]
    forms = [rule for rule in each if rule in ("entries", "picture_line")]
    return (forms or ["entries"])[0] == "entries" and SEE_THROUGH not in asked.words_before


def keys_of_list(asked: Cursor) -> Iterator[Offer]:
    """Yield the keys that the layer has no cell for yet."""
    around = CellsAround(asked)
    order = [*asked.rest_of_file.keys, *_turns(asked)]
    before, after = _ends(around, order)
    taken = {*around.layers.get(around.layer, {}), *around.order}
    ranks: dict[str, float] = {}
    for key in order:
        if key not in taken:
            far = [
                abs(order.index(key) - order.index(end) - step)
                for end, step in ((before, 1), (after, -1))
                if end in order
            ]
            waits = around.is_base and not is_word(stem_of(key))
            rank = WAITED_FOR if waits else NEXT
            ranks[key] = rank + min(far, default=order.index(key)) / 1000
    for key in sorted(ranks, key=lambda one: ranks[one]):
        yield Offer(key, ranks[key] - votes_behind(around, key) / VOTES)


def _turns(asked: Cursor) -> list[str]:
    """Return the two ways of each knob."""
    return [one for knob in asked.rest_of_file.texts("KNOB_NAME") for one in steps_of(knob)]


def _ends(around: CellsAround, order: Sequence[str]) -> tuple[str | None, str | None]:
    """Return the keys of the list between which one is to be written."""
    here = around.order
    place = here.index(around.key) if around.key in here else -1
    is_whole = around.key != HERE  # the cursor is behind it
    before = here[place] if is_whole and here else here[place - 1] if place > 0 else None
    after = here[place + 1] if place + 1 < len(here) else None
    return before or _last_key_above(around.asked, order), after


def votes_behind(around: CellsAround, key: str) -> float:
    """Return how likely what is behind the `=` is for a key."""
    phrase = around.layers.get(around.layer, {}).get(HERE, ())
    cell = phrase[1] if phrase[:1] == ("tap",) and len(phrase) > 1 else phrase[0] if phrase else ""
    tried = around.with_key(key)
    if len(phrase) == 1:
        return likely(tried).get(tried.sent(cell), 0.0)
    return VOTES if cell and tried.own == tried.sent(cell) else 0.0


def _last_key_above(asked: Cursor, order: Sequence[str]) -> str | None:
    above = [one for one in asked.rest_of_file.of("KEY") if one.block == "layer"]
    mine = [one for one in above if asked.header_line < one.span.line < asked.line]
    keys = [name_of_key(one.text) for one in mine]
    return next((key for key in reversed(keys) if key in order), None)
