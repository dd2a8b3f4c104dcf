"""What each revision of a file changed, and what work that was.

A revision is compared with the last one before it that reads. So what is soldered in, or between,
revisions that do not read is reported with the next one that does.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import Literal, cast

from matrixgen.compare import KINDS
from matrixgen.git.board_history import with_board_revisions
from matrixgen.git.history import Revision, read_contents, revisions_of
from matrixgen.jobs.compare import compared_sides
from matrixgen.jobs.history_ahead import found_ahead
from matrixgen.jobs.history_sides import RevisionSide, Sides, boards_of
from matrixgen.jobs.kept_history import PAIRS, KeptAnswer, KeptHistory, hash_of
from matrixgen.record import Record

EntryKind = Literal["new", "gone", "solder", "reflash", "cosmetic", "none", "unreadable"]


class HistoryEntry(Record):
    """A revision, the work that it asked for, and that in words.

    `over` are older ones, newest first, whose work it tells of as well: those that do not read, or
    in which the file was not there.
    """

    revision: Revision
    work: EntryKind
    headline: str
    over: tuple[Revision, ...] = ()


class History(Record):
    """The revisions of a file: those that were asked for, and all of them; and their contents."""

    file: Path
    revisions: tuple[Revision, ...]
    every: tuple[Revision, ...]
    contents: Mapping[str, bytes]

    @property
    def entries(self) -> Iterator[HistoryEntry]:
        """Yield what each revision changed, newest first."""
        kept = KeptHistory(self.file)
        sides = Sides(self.file, self.every, self.contents, kept)
        asked = len(self._asked)
        new = min(asked, sum(sides.is_new(name) for name in self.contents))
        with found_ahead(self.answers, asked, new) as ahead:
            for number, place in enumerate(self._asked):
                kept.now.update(ahead(number))
                entry = _entry(place, self.every, sides, kept)
                if not entry.revision.is_of_board or entry.work in KINDS:
                    yield entry
        kept.save()

    @cached_property
    def _asked(self) -> tuple[int, ...]:
        """The places, among all revisions, of those that were asked for."""
        asked = {revision.commit for revision in self.revisions}
        return tuple(place for place, one in enumerate(self.every) if one.commit in asked)

    def answers(self, numbers: range) -> Mapping[str, KeptAnswer]:
        """Return all that some of the entries rest upon, of which nothing was kept before."""
        kept = KeptHistory(self.file)
        sides = Sides(self.file, self.every, self.contents, kept)
        for number in numbers:
            _entry(self._asked[number], self.every, sides, kept)
        return kept.now


def history_of(file: Path, since: str | None = None) -> History:
    """Return the history of a file in git; an empty one where no commit has it.

    :param since: a revision or a date; only later revisions are reported.
    """
    own = revisions_of(file)
    later = revisions_of(file, since) if since else own
    names = list(dict.fromkeys(n for one in own for n in (one.old, one.new) if n))
    found = zip(names, read_contents(file, names), strict=True)
    contents = {name: data for name, data in found if data is not None}
    boards = boards_of(own, contents)
    every = with_board_revisions(file, own, boards)
    newer = with_board_revisions(file, own, boards, since) if since else every
    asked = {one.commit for one in (*later, *newer) if one.is_of_board}
    asked.update(one.commit for one in later)
    return History(file, tuple(one for one in every if one.commit in asked), tuple(every), contents)


def _entry(
    place: int, every: tuple[Revision, ...], sides: Sides, kept: KeptHistory
) -> HistoryEntry:
    revision = every[place]
    if revision.new is None:
        return HistoryEntry(revision, "gone", "the file was removed")
    new = RevisionSide(revision.new, revision.commit, posixpath.dirname(revision.path))
    if (wrong := sides.wrong_in(new)) is not None:
        return HistoryEntry(revision, "unreadable", wrong)
    base, over = _base(place, every, sides)
    if base is None:
        return HistoryEntry(revision, "new", sides.size_of(new), over)
    found = _between(base, new, sides, kept)
    return HistoryEntry(revision, cast("EntryKind", found.kind), found.words, over)


def _base(
    place: int, every: tuple[Revision, ...], sides: Sides
) -> tuple[RevisionSide | None, tuple[Revision, ...]]:
    """Return what a revision is compared with, and the older ones that it goes over.

    Each content before it came with an older revision, which names the one before that.
    """
    last, over = every[place], list[Revision]()
    while True:
        if last.old is not None:
            folder = posixpath.dirname(last.old_path)
            side = RevisionSide(last.old, f"{last.commit}^", folder)
            if sides.wrong_in(side) is None:
                return side, tuple(over)
        older = ((n, one) for n, one in enumerate(every) if n > place and one.new == last.old)
        found = next(older, None)
        if found is None:
            return None, tuple(over)
        place, last = found
        if not last.is_of_board:
            over.append(last)


def _between(old: RevisionSide, new: RevisionSide, sides: Sides, kept: KeptHistory) -> KeptAnswer:
    """Return the work from one content that reads to another."""
    names = [sides.name_of(old), sides.name_of(new)]
    if names[0] == names[1]:
        return KeptAnswer("none", "no change to its content")
    name = hash_of(one.encode() for one in names)
    if answer := kept.get(name, PAIRS):
        return answer
    before, after = sides.read(old), sides.read(new)
    if not (before.examined.design and after.examined.design):  # what was kept of it said otherwise
        return KeptAnswer(
            "unreadable", "what is kept of this file in the cache folder is not of it"
        )
    found = compared_sides(before, after)
    return kept.put(name, KeptAnswer(found.kind, found.headline))
