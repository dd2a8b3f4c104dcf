"""Keys of the plate: those that something is missing without first, then the next on the plate."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise, takewhile

from matrixgen.editor.file_words import PLATE_LINE, TO
from matrixgen.editor.offers.asked import Cursor, key_of
from matrixgen.editor.offers.neighbours import next_to
from matrixgen.editor.offers.offer import Offer
from matrixgen.source.letters import name_of_key
from matrixgen.source.parts import WIRES

SURE, MISSING, NEAR, OTHER = -1.0, 0.0, 1.0, 2.0


def keys(asked: Cursor) -> Iterator[Offer]:
    """Yield keys for a statement that lists some, or new ones for a line of the plate."""
    if asked.rule_word == "line":
        yield from _new_keys(asked)
    elif asked.rule_word in WIRES:
        yield from _of_wire(asked)
    elif asked.words_before[:2] == ("boot-loader", "hold"):
        yield from _at_corners(asked)
    elif asked.rule_word == "allow":
        yield from _of_allow(asked)
    else:
        yield from _listed(asked)


def _new_keys(asked: Cursor) -> Iterator[Offer]:
    """Yield names that wires and layers have and the plate has not, then what is next to a key."""
    words = asked.rest_of_file
    known = {*words.keys, *map(key_of, (*asked.words_before, *asked.words_after))}
    named = [name_of_key(one.text) for one in words.of("KEY") if one.rule != PLATE_LINE]
    missing = [key for key in dict.fromkeys(named) if key not in known]
    following = _following(asked, missing)
    for key in missing:
        yield Offer(key, MISSING - (key == following) / 2, "named in wiring or layers")
    for place, key in enumerate(next_to(asked.key_before, key_of(asked.word_after), known)):
        yield Offer(key, NEAR + place / 100)


def _following(asked: Cursor, missing: Iterable[str]) -> str | None:
    """Return the missing key that a wire visits right after the key before the cursor."""
    for wire in asked.rest_of_file.wires:
        visits = [*map(name_of_key, wire.named("KEY"))]
        for one, other in pairwise(visits):
            if one == asked.key_before and other in missing:
                return other
    return None


def unvisited(asked: Cursor) -> list[str]:
    """Return the keys that no other wire of this kind visits, nor this one elsewhere."""
    words = asked.rest_of_file
    visited = {
        key for wire in words.wires if wire.rule == asked.rule_word for key in words.listed(wire)
    }
    visited |= set(asked.own_keys)
    return [key for key in words.keys if key not in visited]


def _of_wire(asked: Cursor) -> Iterator[Offer]:
    left, words = unvisited(asked), asked.rest_of_file
    lines = words.plate_lines
    near = _by_nearness(asked, left)
    ends = _ends_of_run(asked, lines)
    for place, key in enumerate(near):
        rank = MISSING + place / 100 - (key in ends) / 2
        yield Offer(key, rank, f"on no {asked.rule_word} yet")
    for key in words.keys:
        if key not in left:
            yield Offer(key, OTHER, f"on a {asked.rule_word} already")


def _ends_of_run(asked: Cursor, lines: Sequence[Sequence[str]]) -> set[str]:
    """Return where a run probably ends: at the end of a line, or before what a wire has already."""
    if asked.word_before == TO and len(asked.words_before) > 1:
        start, order = name_of_key(asked.words_before[-2]), list(asked.rest_of_file.keys)
        left = set(unvisited(asked))
        behind = order[order.index(start) + 1 :] if start in order else []
        run = list(takewhile(left.__contains__, behind))
        return {line[-1] for line in lines if start in line and line[-1] in run} | set(run[-1:])
    if asked.word_after == TO and len(asked.words_after) > 1:
        end = name_of_key(asked.words_after[1])
        return {line[0] for line in lines if end in line}
    return set()


def _by_nearness(asked: Cursor, keys: Sequence[str]) -> list[str]:
    """Return keys sorted by how near they are to the one before: along a row, or down a column."""
    lines = asked.rest_of_file.plate_lines
    at = {key: (row, place) for row, line in enumerate(lines) for place, key in enumerate(line)}
    here = at.get(asked.key_before) or at.get(name_of_key(asked.word_after))
    if here is None:
        return list(keys)
    row, place = here

    def far(key: str) -> tuple[float, float]:
        rows, places = at[key][0] - row, at[key][1] - place
        along, across = (places, rows) if asked.rule_word == "row" else (rows, places)
        return abs(across) * 3 + abs(along) + (along < 0) / 2, abs(across)

    return sorted(keys, key=far)


def _of_allow(asked: Cursor) -> Iterator[Offer]:
    """Yield what the findings of that kind are about."""
    slug = asked.words_before[1] if len(asked.words_before) > 1 else ""
    findings = (*asked.examined.findings, *asked.examined.allowed)
    about = [name for one in findings if one.slug == slug for name in sorted(one.about)]
    for name in dict.fromkeys(about):
        if name not in asked.words_before:
            yield Offer(name, MISSING, f"`{slug}` is found there")
    yield from _listed(asked)


def _listed(asked: Cursor) -> Iterator[Offer]:
    """Yield the keys that the statement does not list yet, those next on the plate first."""
    left = [key for key in asked.rest_of_file.keys if key not in asked.own_keys]
    for place, key in enumerate(_by_nearness(asked, left)):
        yield Offer(key, NEAR + place / 100)


def _at_corners(asked: Cursor) -> Iterator[Offer]:
    """Yield the keys at the ends of lines first: nobody holds those down by chance."""
    lines = asked.rest_of_file.plate_lines
    corners = [key for line in (*lines[:1], *lines[:0:-1]) for key in (line[0], line[-1])]
    for key in dict.fromkeys(corners):
        if key not in asked.own_keys:
            yield Offer(key, MISSING + corners.index(key) / 100)
    yield from _listed(asked)


def run_word(asked: Cursor) -> Iterator[Offer]:
    """Yield `to` where keys lie between the one before and the one behind, or may follow."""
    order = list(asked.rest_of_file.keys)
    ends = [asked.key_before, name_of_key(asked.word_after)]
    left = set(unvisited(asked)) if asked.rule_word in WIRES else set(order)
    if all(end in order for end in ends):
        first, last = sorted(order.index(end) for end in ends)
        between = set(order[first + 1 : last]) & left
        rank = SURE if len(between) > 1 else MISSING + 0.005 if between else OTHER
        yield Offer(TO, rank, "a run of keys")
    else:
        yield Offer(TO, MISSING + 0.015, "a run of keys, in the order of the plate")
