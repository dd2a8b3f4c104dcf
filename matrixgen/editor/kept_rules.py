"""The rules, each run again only where something that it reads has changed since it was run.

Most edits of a file change what keys do: no rule about the wiring or the plate has to be asked for
that. What a rule reads nobody has to list (`watched.py`).
"""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from typing import Any

from matrixgen.boards import Mounted
from matrixgen.editor.watched import FieldRead, Reader, Watch
from matrixgen.model import Design, Diagnostic
from matrixgen.record import Record
from matrixgen.rules import MOUNTED_RULES, RULES
from matrixgen.rules.context import Context, MountedContext, Rule

SLOW_SECONDS = 0.02
"""A rule that took this long at its last run is run after the others have been reported."""


Place = int
"""The number of a controller among those of the file; -1 for what is the keyboard's own."""

OWN: Place = -1


class _Kept(Record, kw_only=True):
    """What a rule found, which state of each field it read, and how long it took, in seconds."""

    found: tuple[Diagnostic, ...]
    read: Mapping[FieldRead, int]
    seconds: float


class RuleToAsk(Record, kw_only=True):
    """A rule that is to be asked of a keyboard, on one of its controllers or on none."""

    place: Place
    rule: Rule[Context] | Rule[MountedContext]
    watch: Watch
    states: Mapping[FieldRead, State]

    @property
    def key(self) -> Hashable:
        """What tells it from all others of a file."""
        return self.place, self.rule.PROBLEM.slug


class State:
    """The state of a field: a number that is another one once its value is.

    Two values are compared once, however many rules ask, and only if one does.
    """

    def __init__(self) -> None:
        self._number = 0
        self._looked_at: Any = None
        self._now: Any = None

    def becomes(self, value: Any) -> None:
        """Take what the field is now."""
        self._now = value

    @property
    def number(self) -> int:
        """The number of what it is now."""
        if self._now is not self._looked_at:
            self._number += self._now != self._looked_at
            self._looked_at = self._now
        return self._number


class KeptRules:
    """What each rule found in one file when it was last run."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, _Kept] = {}
        self._states: dict[Place, dict[FieldRead, State]] = defaultdict(lambda: defaultdict(State))

    def asked(self, design: Design, mounted: Sequence[Mounted]) -> list[RuleToAsk]:
        """Return every rule to be asked of a file, those that took long at last."""
        own, keyboard = design.keyboard, Watch(design.keyboard)
        context = Context(own, design.allowances)
        shared = self._states_of(OWN, own, context)
        watch = Watch(context, {"keyboard": keyboard})
        each = [RuleToAsk(place=OWN, rule=rule, watch=watch, states=shared) for rule in RULES]
        for place, one in enumerate(mounted):
            states = shared | self._states_of(place, one)
            watch = Watch(MountedContext(one), {"mounted": Watch(one, {"keyboard": keyboard})})
            each += [
                RuleToAsk(place=place, rule=rule, watch=watch, states=states)
                for rule in MOUNTED_RULES
            ]
        return sorted(each, key=self.is_slow)

    def _states_of(self, place: Place, *records: Record) -> dict[FieldRead, State]:
        states = self._states[place]
        for one in records:
            for name in one.__match_args__:
                states[type(one), name].becomes(one.__dict__[name])
        return dict(states)

    def is_slow(self, asked: RuleToAsk) -> bool:
        """Whether a rule took long when it was last run, and has to be run again."""
        kept = self._kept.get(asked.key)
        return kept is not None and kept.seconds > SLOW_SECONDS and not _holds(kept, asked)

    def found(self, asked: RuleToAsk) -> tuple[Diagnostic, ...]:
        """Return what a rule finds: what it found before, if that still holds."""
        kept = self._kept.get(asked.key)
        if kept is None or not _holds(kept, asked):
            kept = self._kept[asked.key] = _run(asked)
        return kept.found


def _run(asked: RuleToAsk) -> _Kept:
    reader = Reader()
    check: Callable[[Any], Iterator[Diagnostic]] = asked.rule.check
    begin = time.perf_counter()
    found = tuple(check(asked.watch.seen_by(reader)))
    seconds = time.perf_counter() - begin
    read = {field: asked.states[field].number for field in reader.fields}
    return _Kept(found=found, read=read, seconds=seconds)


def _holds(kept: _Kept, asked: RuleToAsk) -> bool:
    return all(asked.states[field].number == number for field, number in kept.read.items())
