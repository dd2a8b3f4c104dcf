"""One statement in three versions, merged part by part; comments and blanks as well."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.merge.parts import has_run, joined, keys_as_one
from matrixgen.merge.three_way import Id, Which, choose, chosen, in_order
from matrixgen.record import Record, changed
from matrixgen.source.parts import KEYS, KEYWORD, PartId
from matrixgen.source.tree import Part, Piece, Statement

COMMENT: PartId = ("comment",)
"""The name of a statement's comments, for what both sides changed."""

ORDERED = ("plate_line",)
"""Statements whose parts mean something by their place, so that both sides have to agree on it."""


class MergedStatement(Record):
    """A statement, and the names of the parts that both sides changed differently."""

    statement: Statement
    clashes: tuple[Id, ...]


def merged_statement(
    base: Statement | None, ours: Statement, theirs: Statement, prefer: Which
) -> MergedStatement:
    """Return a statement in which the changes of both sides are made."""
    if (base and base.rule != ours.rule) or ours.rule != theirs.rule:
        return _whole(base, ours, theirs, prefer)
    if any(map(has_run, (base, ours, theirs))):
        base, ours, theirs = base and keys_as_one(base), keys_as_one(ours), keys_as_one(theirs)
    merged, clashes = _merged_parts(base, ours, theirs, prefer)
    return with_comments(merged, (base, ours, theirs), prefer, clashes)


def _whole(
    base: Statement | None, ours: Statement, theirs: Statement, prefer: Which
) -> MergedStatement:
    """Return one of two statements that are of different forms."""
    choice = choose([one.words if one else None for one in (base, ours, theirs)], prefer)
    mine = ours if choice.side == "ours" else theirs
    clashes = (KEYWORD,) if choice.is_clash else ()
    return with_comments(mine, (base, ours, theirs), prefer, clashes)


def _merged_parts(
    base: Statement | None, ours: Statement, theirs: Statement, prefer: Which
) -> tuple[Statement, tuple[Id, ...]]:
    kept: dict[Id, Part] = {}
    clashes: list[Id] = []
    old, mine, other = (
        [part.id for part in one.parts] if one else [] for one in (base, ours, theirs)
    )
    for id in dict.fromkeys((*other, *mine, *old)):
        three = [base and base.part(id), ours.part(id), theirs.part(id)]
        shown: Which = "ours" if id == KEYS else prefer  # which keys are meant is seen later
        choice = choose([part and part.words for part in three], shown)
        part = three[1] if choice.side == "ours" else three[2]
        if choice.is_clash and id != KEYS:
            clashes.append(id)
        if part:
            kept[id] = part
    order = in_order((old, mine, other), kept, prefer, strict=ours.rule in ORDERED)
    frame = framing(base, ours, theirs)
    parts = [_laid_out(kept[id], frame.part(id)) for id in order.ids]
    statement = joined(frame, carried(parts, frame), frame.tail)
    return statement, (*clashes, *order.clashes)


def framing(base: Statement | None, ours: Statement, theirs: Statement) -> Statement:
    """Return the side whose blanks and joints are kept: the one that changed them."""
    if base is None or ours.pieces == theirs.pieces:
        return ours
    common = [(part, ours.part(part.id)) for part in base.parts]
    is_old = all(_is_spaced_alike(part, other) for part, other in common if other)
    return theirs if is_old and blanks(base.tail) == blanks(ours.tail) else ours


def _is_spaced_alike(one: Part, two: Part) -> bool:
    """Whether the same blanks stand before two parts, and in them where they say the same."""
    return one.lead == two.lead and (one.text == two.text or one.words != two.words)


def blanks(pieces: Sequence[Piece]) -> list[Piece]:
    """Return the pieces that are no words."""
    return [piece for piece in pieces if piece.kind != "word"]


def _laid_out(part: Part, place: Part | None) -> Part:
    """Return a part with the blanks that its place has; those inside too, if nothing changed."""
    if place is None:
        return part
    return place if place.words == part.words else changed(part, lead=place.lead)


def carried(parts: Sequence[Part], frame: Statement) -> list[Part]:
    """Return parts with the joints and comments of parts that went, at what comes after them."""
    here = {part.id for part in parts}
    lost: tuple[Piece, ...] = ()
    after: dict[Id, tuple[Piece, ...]] = {}
    for part in frame.parts:
        if part.id not in here:
            lost = part.lead if _has_line_end(part.lead) else lost
        elif lost:
            after[part.id], lost = lost, ()
    return [
        changed(part, lead=after[part.id])
        if part.id in after and not _has_line_end(part.lead)
        else part
        for part in parts
    ]


def _has_line_end(pieces: Sequence[Piece]) -> bool:
    return any(piece.kind == "line end" for piece in pieces)


def with_comments(
    merged: Statement,
    versions: tuple[Statement | None, Statement, Statement],
    prefer: Which,
    clashes: Sequence[Id] = (),
) -> MergedStatement:
    """Return a statement with the comments that both sides want above it and after it."""
    base, ours, theirs = versions
    above = [one.above if one else () for one in (base, ours, theirs)]
    tails = [one.tail if one else () for one in (base, ours, theirs)]
    found = list(clashes)
    new_above, has_clash = merged_above(above[0], above[1], above[2], prefer)
    choice = choose([comments_in(tail) for tail in tails], prefer)
    if has_clash or choice.is_clash:
        found.append(COMMENT)
    tail = tails[1] if choice.side == "ours" else tails[2]
    new_above = (*new_above, *_homeless(merged, (base, ours, theirs)))
    pieces = merged.pieces
    if comments_in(tail) != comments_in(merged.tail):
        pieces = (*pieces[: len(pieces) - len(merged.tail)], *tail)
    return MergedStatement(changed(merged, above=new_above, pieces=pieces), tuple(found))


def _homeless(
    merged: Statement, versions: tuple[Statement | None, Statement, Statement]
) -> tuple[Piece, ...]:
    """Return comments between the lines of a statement whose line is gone, as lines above it."""
    base, ours, theirs = (list(_inner(one)) if one else [] for one in versions)
    meant = [one for one in ours if one not in base or one in theirs]
    meant += [one for one in theirs if one not in base and one not in ours]
    there = set(comments_in(merged.pieces))
    lost = [one for one in dict.fromkeys(meant) if one not in there]
    indent = merged.pieces[0] if merged.pieces[0].kind == "gap" else Piece("gap", "  ")
    return tuple(
        piece
        for text in lost
        for piece in (indent, Piece("comment", text), Piece("line end", "\n"))
    )


def _inner(statement: Statement) -> tuple[str, ...]:
    return comments_in(statement.pieces[: len(statement.pieces) - len(statement.tail)])


def comments_in(pieces: Sequence[Piece]) -> tuple[str, ...]:
    """Return the comments among some pieces."""
    return tuple(piece.text.rstrip() for piece in pieces if piece.kind == "comment")


def merged_above(
    base: tuple[Piece, ...], ours: tuple[Piece, ...], theirs: tuple[Piece, ...], prefer: Which
) -> tuple[tuple[Piece, ...], bool]:
    """Return comments and empty lines above a statement, and whether both sides changed them."""
    said = [comments_in(one) for one in (base, ours, theirs)]
    choice = choose(said, prefer)
    if said[1] == said[2]:
        return chosen(base, ours, theirs, "ours"), False
    both_add = set(said[0]) <= set(said[1]) & set(said[2])
    if choice.is_clash and both_add:
        new = [one for one in _lines(theirs) if not set(comments_in(one)) <= set(said[1])]
        return (*ours, *(piece for line in new for piece in line)), False
    return (ours if choice.side == "ours" else theirs), choice.is_clash


def _lines(pieces: Sequence[Piece]) -> list[tuple[Piece, ...]]:
    """Return the lines that have a comment."""
    lines: list[list[Piece]] = [[]]
    for piece in pieces:
        lines[-1].append(piece)
        if piece.kind == "line end":
            lines.append([])
    return [tuple(line) for line in lines if comments_in(line)]
