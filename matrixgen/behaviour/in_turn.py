"""What a key types one thing after the other, while it does.

As it begins, every key that holds something besides modifiers is over: its usages go up, and stay
up until it is pressed again. Modifiers go up as well and come back at the end. Then each stroke
goes down and up, a report each time: not before the computer has taken the one before, nor before
`pace_ms` have passed since that was given. Caps Lock, if the computer says that it is on, is
pressed before a text and after it.

What else is pressed or let go waits. The key itself, pressed again, stops it, and so does the
seventh key: what is down goes up, Caps Lock comes back, and what waited is done. Until then there
is room for some events more.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from matrixgen.behaviour.state import Held
from matrixgen.model.actions import InTurn, Pause
from matrixgen.usages.key_stroke import KeyStroke

CAPS_LOCK = KeyStroke(0x39)
NEARLY_FULL = 13
"""So many events wait once six keys went down and up, and one more went down."""

CAPS_LOCK_LED = 0x02
"""Its bit of the output report (HID 1.11 appendix B.1)."""


@dataclass
class Turn:
    """What key types, and how far it is: `next_ms` is when it goes on at the earliest.

    `paced_ms` is when it would without a wait.
    """

    key: str
    action: InTurn
    next_ms: int
    sets_caps_aside: bool
    moves: list[KeyStroke | Pause] = field(init=False)
    down: KeyStroke | None = None
    is_caps_aside: bool = False
    is_over: bool = False
    paced_ms: int = field(init=False)

    def __post_init__(self) -> None:
        self.moves = list(self.action.moves)
        self.paced_ms = self.next_ms

    @property
    def held(self) -> Held:
        """What is down for it."""
        down = self.down or KeyStroke(0)
        return Held(usages={down.usage} - {0}, modifiers=down.modifiers)

    def stop(self) -> None:
        """Type and wait no more."""
        self.moves.clear()
        self.next_ms = min(self.next_ms, self.paced_ms)
        self.sets_caps_aside = False

    def go_on(self, now_ms: int, pace_ms: int) -> bool:
        """Do the next thing; false if it is not time for it."""
        if now_ms < self.next_ms:
            return False
        self.next_ms = self.paced_ms = now_ms + pace_ms
        if self.down:
            self.down = None
        elif self.sets_caps_aside:
            self.down, self.sets_caps_aside, self.is_caps_aside = CAPS_LOCK, False, True
        elif self.moves:
            self._move(self.moves.pop(0), now_ms)
        elif self.is_caps_aside:
            self.down, self.is_caps_aside = CAPS_LOCK, False
        else:
            self.is_over = True
        return True

    def _move(self, move: KeyStroke | Pause, now_ms: int) -> None:
        if isinstance(move, Pause):
            self.next_ms = now_ms + move.ms
        else:
            self.down = move
