"""What a pointer's many reports add up to: told where a button changes, and now and then."""

from __future__ import annotations

from matrixgen.rehearse.report_words import Report, pointer_report

STILL_MS, LONGEST_MS = 50, 250
"""Movement is told of once there was none for so long, or it went on for so long (a choice)."""

FIRST_AXIS = 2
"""Where the report has the counts: after its number and the buttons."""


class Movement:
    """The reports of a pointer since it was last told of one."""

    def __init__(self) -> None:
        self._buttons = 0
        self._moved = [0, 0, 0, 0]
        self._began_ms = self._last_ms = 0

    def take(self, report: bytes, now_ms: int) -> Report | None:
        """Take a report; return all that moved, and the buttons, if one of them has changed."""
        if not any(self._moved):
            self._began_ms = now_ms
        self._last_ms = now_ms
        for axis, byte in enumerate(report[FIRST_AXIS:]):
            self._moved[axis] += byte - 256 * (byte > 127)
        before, self._buttons = self._buttons, report[1]
        return self.told() if self._buttons != before else None

    def pass_time(self, now_ms: int) -> Report | None:
        """Return all that moved if it is time to tell of it."""
        is_still = now_ms - self._last_ms >= STILL_MS
        is_long = now_ms - self._began_ms >= LONGEST_MS
        return self.told() if any(self._moved) and (is_still or is_long) else None

    def rest(self) -> Report | None:
        """Return what moved that was not told of."""
        return self.told() if any(self._moved) else None

    def told(self) -> Report:
        """Return what moved, and let it be told."""
        moved, self._moved = tuple(self._moved), [0, 0, 0, 0]
        return pointer_report(self._buttons, moved)
