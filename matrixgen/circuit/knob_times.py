"""How long the contacts of a knob may be left unread, and how fast it may turn."""

from __future__ import annotations

from matrixgen.circuit.timing import LONG_SCAN_US, Term, Timing, total
from matrixgen.families import Cycles

STABLE_SHARE = 0.7
"""Of a state, in which its contacts have come to rest: a bounce takes at most 3 ms at 60 turns a
minute, where a state of 24 pulses a turn lasts 10.4 ms (datasheet of an 11 mm encoder)."""

KEYS_DECIDED = "keys and steps are decided and reported"
SETS_COMPARED = "sets of keys are compared"


class KnobTimes(Timing):
    """The same keyboard, asked how often it reads its knobs."""

    @property
    def scan_is_long(self) -> bool:
        """Whether a scan is interrupted to read them; never where nothing is known of its time."""
        return self.turn is not None and total(self.turn[:2]) > LONG_SCAN_US

    @property
    def unread(self) -> tuple[Term, ...] | None:
        """The parts of the longest time for which they are left unread; None without firmware.

        That is from one turn of the main loop to the next, or, where a scan is interrupted, from
        its last line on. What keys do is interrupted too: what may come between is added. What
        comes on top while the computer asks what the keyboard is, as when it is plugged in, is not.
        """
        turn, family = self.turn, self.mounted.profile.family_record
        if turn is None or family is None:
            return None
        scan = Term("lines are read", total(turn[:2]))
        if self.scan_is_long:
            scan = Term("a line is read", scan.us / len(self.matrix.drives))
        return (scan, *turn[2:], *self._amid_keys(family.cycles))

    def _amid_keys(self, cycles: Cycles) -> tuple[Term, ...]:
        """Return what passes at most while keys are decided and reported, with all of a turn."""
        us = 1e6 / self.mounted.profile.clock_hz
        keys = Term(KEYS_DECIDED, cycles.knobs_amid * us)
        if not any(layer.together for layer in self.mounted.keyboard.layers):
            return (keys,)
        return (keys, Term(SETS_COMPARED, cycles.knobs_sets * us))

    def most_steps(self, states: int) -> float | None:
        """Return how many steps a second are counted, however long its contacts bounce."""
        unread = self.unread
        return None if unread is None else STABLE_SHARE * 1e6 / total(unread) / states
