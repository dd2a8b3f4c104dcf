"""How long the contacts of a knob may be left unread, and how fast it may turn."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.circuit.timing import LONG_SCAN_US, Term, Timing, total
from matrixgen.model import Matrix
from matrixgen.record import Record

STABLE_SHARE = 0.7
"""Of a state, in which its contacts have come to rest: a bounce takes at most 3 ms at 60 turns a
minute, where a state of 24 pulses a turn lasts 10.4 ms (datasheet of an 11 mm encoder)."""


class KnobTimes(Record):
    """A keyboard on a controller, asked how often it reads its knobs."""

    mounted: Mounted
    matrix: Matrix
    settle_us: int

    @property
    def _timing(self) -> Timing:
        return Timing(self.mounted, self.matrix, self.settle_us)

    @property
    def scan_is_long(self) -> bool:
        """Whether a scan is interrupted to read them; never where nothing is known of its time."""
        turn = self._timing.turn
        return turn is not None and total(turn[:2]) > LONG_SCAN_US

    @property
    def unread(self) -> tuple[Term, ...] | None:
        """The parts of the longest time for which they are left unread; None without firmware.

        That is from one turn of the main loop to the next, with a report in between, or, where a
        scan is interrupted, from its last line on.
        """
        turn, family = self._timing.turn, self.mounted.profile.family_record
        if turn is None or family is None:
            return None
        scan = Term("lines are read", total(turn[:2]))
        if self.scan_is_long:
            scan = Term("a line is read", scan.us / len(self.matrix.drives))
        report = family.cycles.press * 1e6 / self.mounted.profile.clock_hz
        return (scan, *turn[2:], Term("a step is reported", report))

    def most_steps(self, states: int) -> float | None:
        """Return how many steps a second are counted, however long its contacts bounce."""
        unread = self.unread
        return None if unread is None else STABLE_SHARE * 1e6 / total(unread) / states
