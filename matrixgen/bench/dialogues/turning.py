"""The dialogue about knobs, without a terminal: each is turned to the right, and then back.

Nothing is concluded before Enter, so that a knob which was turned the other way may be turned back
before, and counts as it is then.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from matrixgen.bench.dialogues.answers import command_in, words_of
from matrixgen.bench.dialogues.turns import KnobSeen, moved_pins, odd_with, other_knob, steps_right
from matrixgen.bench.serial.contacts import Grounded
from matrixgen.bench.serial.press import ClosedPairs, pins_of
from matrixgen.model.prose import quoted

COMMANDS = ("skip", "back", "again", "stop")
WORDS = words_of(COMMANDS, "then Enter")
RIGHT = "turn `{knob}` one step to the right (clockwise), slowly ({words})"
LEFT = "now turn `{knob}` one step back ({words})"
SLOWER = "no step to one side was seen: turn it more slowly"


class TurningKnobs:
    """Knobs that are asked for one after the other; `seen` has what each did, in their order.

    `file_pins` has the pins that the file has each knob on, as far as it has.
    """

    def __init__(
        self, knobs: Sequence[str], file_pins: Mapping[str, Sequence[str]], at_rest: Grounded
    ) -> None:
        self._knobs, self._file_pins = tuple(knobs), file_pins
        self._at: int | None = 0 if knobs else None
        self._states: list[Grounded] = [at_rest]
        self._meet = False
        self._first: KnobSeen | None = None
        self._has_failed = False
        self.is_stopped = False
        self.seen: dict[str, KnobSeen] = {}

    @property
    def is_over(self) -> bool:
        """Whether nothing more is asked."""
        return self._at is None

    @property
    def missing(self) -> tuple[str, ...]:
        """The knobs that were not turned."""
        return tuple(knob for knob in self._knobs if knob not in self.seen)

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""
        yield from self._asks()

    def changed(self, on_ground: Grounded, *, meet: bool = False) -> None:
        """Take which pins are on ground now; `meet` says that two are joined that are not."""
        self._states.append(on_ground)
        self._meet |= meet

    def pressed(self, press: ClosedPairs) -> Iterator[str]:
        """Take what a key joins, or a knob whose middle leg is on no ground."""
        pins = sorted(pins_of(press))
        if pins and self._at is not None:
            yield (
                f"that joins {quoted(pins)}, as a key does. If you turned "
                f"`{self._knobs[self._at]}`, its middle leg is not on ground"
            )

    def typed(self, text: str) -> Iterator[str]:
        """Take a line that was typed: a command, a knob to ask for now, or that it is turned."""
        word = text.strip()
        command = command_in(word, COMMANDS, self._knobs)
        if self._at is None or command == "stop":
            self._at, self.is_stopped = None, True
        elif not word:
            yield from self._turned(self._knobs[self._at])
        elif command == "skip":
            yield from self._go_to(self._at + 1)
        elif command == "back":
            yield from self._go_to(max(self._at - 1, 0))
        elif command == "again":
            yield from self._go_to(max(self._at - (self._first is None), 0))
        elif word in self._knobs:
            yield from self._go_to(self._knobs.index(word))
        else:
            yield f"the file has no knob `{word}`; {WORDS}"

    def _turned(self, knob: str) -> Iterator[str]:
        pins = moved_pins(self._states)
        others = {one: seen.pins for one, seen in self.seen.items()}
        other = other_knob(knob, pins, others)
        is_new = self._first is not None and not {*pins} <= {*self._first.pins}
        if len(pins) > 2 or is_new or (other and not self._has_failed):
            yield self._not_this_one(knob, pins, other)
        elif len(pins) < 2:
            yield from self._half_seen(knob, pins)
            return
        elif not (steps := steps_right(self._states, *pins)):
            yield SLOWER
        else:
            yield from self._step(knob, pins if steps > 0 else (pins[1], pins[0]))
            return
        self._has_failed = True
        yield from self._asks()

    def _not_this_one(self, knob: str, pins: Sequence[str], other: str | None) -> str:
        if other:
            return f"that is what `{other}` did: turn only `{knob}`, or type :back if it was not"
        return f"{quoted(pins)} changed: turn only `{knob}`"

    def _half_seen(self, knob: str, pins: tuple[str, ...]) -> Iterator[str]:
        """Take one contact or none for an answer the second time."""
        if self._first or not self._has_failed:
            self._has_failed = True
            what = f"only `{pins[0]}` changed" if pins else "nothing changed"
            yield f"{what}: turn it once more, by a whole step"
            yield from self._asks()
            return
        held = frozenset.intersection(*self._states)
        yield from self._answered(knob, KnobSeen(pins=pins, held=held))

    def _step(self, knob: str, pins: tuple[str, ...]) -> Iterator[str]:
        """Take a whole step: the first one says which pin leads, the second one proves it."""
        first = self._first
        if first is None:
            self._first, self._has_failed = KnobSeen(pins=pins), False
            yield from self._asks()
        elif first.pins == pins[::-1]:
            yield from self._answered(knob, KnobSeen(pins=first.pins, meet=self._meet))
        else:
            yield "both turns went the same way: one of them was not to the side that was asked for"
            yield from self._go_to(self._knobs.index(knob))

    def _answered(self, knob: str, seen: KnobSeen) -> Iterator[str]:
        self.seen[knob] = seen
        odd = odd_with(knob, seen, self._file_pins.get(knob, ()))
        yield f"`{knob}` {odd}" if odd else f"`{knob}`: {' before '.join(seen.pins)} to the right"
        yield from self._go_to(self._knobs.index(knob) + 1)

    def _go_to(self, at: int) -> Iterator[str]:
        self._at = at if at < len(self._knobs) else None
        self._first, self._has_failed, self._meet = None, False, False
        yield from self._asks()

    def _asks(self) -> Iterator[str]:
        """Ask for a turn, and forget what the contacts did before."""
        self._states = self._states[-1:]
        if self._at is not None:
            asks = LEFT if self._first else RIGHT
            yield asks.format(knob=self._knobs[self._at], words=WORDS)
