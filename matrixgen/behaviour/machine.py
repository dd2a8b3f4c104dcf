"""The keyboard, from closed switches to reports: what it must do, worked out anew at each step."""

from __future__ import annotations

from dataclasses import dataclass

from matrixgen.behaviour.events import Events
from matrixgen.behaviour.reports import report_of
from matrixgen.behaviour.state import Held


@dataclass
class Machine(Events):
    """A keyboard that runs: change `closed`, move `now_ms` on, `step`, and `take` its reports.

    The floors below it are `RunningKeyboard`, `Decisions`, `KeyPresses` and `Events`; this one
    reads switches and tells the host.
    """

    def scan(self) -> bool:
        """One scan, line by line; true if a key was newly pressed."""
        self.knobs.read()
        self.pointer.pass_time(self.now_ms)
        moved = self.closed ^ self.edges.closed
        lines = [[key for key in line if key in moved] for line in self.lines] if moved else []
        pressed = [self._scan_line(keys) for keys in lines if keys]
        self._catch_up()
        self._turn_knobs()
        return any(pressed)

    def _scan_line(self, keys: list[str]) -> bool:
        """Read one line; what it tells is done and reported before the next one is read."""
        edges = [self.edges.read(key, key in self.closed, self.now_ms) for key in keys]
        self._catch_up()
        return any(edges)

    def step(self) -> bool:
        """One scan, and what there is to do by then; true if a key was pressed."""
        pressed = self.scan()
        self.watch_combination()
        return pressed

    def _turn_knobs(self) -> None:
        """Let a step of a knob go on, or the next one begin: once a scan, if all else is done."""
        is_heard = self.is_open and self.waiting is None and not self._others_hold()
        if not is_heard or self.edges.waiting or self.turn is not None:
            return
        if self._step_goes_on(self.now_ms) or self._step_begins():
            self._catch_up()

    def _catch_up(self) -> None:
        """Do as many events as the host takes reports."""
        self.edges.settle(self.now_ms)
        if not self.is_open:
            while self.next_event():
                pass
            self.knobs.forget()
            while self._step_goes_on(self.edges.known_until(self.now_ms)):
                pass
            self.last_report.doubtful = self.media.doubtful = True
        elif self.waiting is None:
            while not self._tells() and self.next_event():
                pass
        self._move_pointer()

    def report(self, boot: bool) -> bytes:
        """Return the report of what is down now."""
        return report_of(self.what_is_down(), boot)

    def _tells(self) -> bool:
        """Give a report of what is down, if it is news; whether one now waits to be taken."""
        down = self.what_is_down()
        report = report_of(down, self.boot)
        if self.last_report.is_news(report, self.boot):
            self.waiting = report
            return True
        return self._tells_of_others(down) or self._others_hold()

    def _tells_of_others(self, down: Held) -> bool:
        """Give a report of media keys or of the pointer's buttons, if it is news."""
        if self.media.give(down.media, self.boot):
            self.pointer.only_moves = self.pointer.changed = False
            return True
        if self.boot or self.media.waiting is not None:
            self.pointer.doubtful |= self.boot
            return False
        is_news = self.pointer.is_news
        self.pointer.doubtful = False
        if is_news:
            self.media.waiting = self.pointer.give(only_moves=False)
        return is_news

    def _others_hold(self) -> bool:
        """Whether keys wait for a report there to be taken: not for one that only moves."""
        only_moves = self.pointer.only_moves and not self.pointer.changed
        return self.media.waiting is not None and not only_moves

    def _move_pointer(self) -> None:
        """Report what is due of the pointer's movement, if there is room for it."""
        if not self.is_open or self.boot:
            self.pointer.not_heard()
        elif self.media.waiting is None and self.pointer.moves:
            self.media.waiting = self.pointer.give(only_moves=True)

    def take(self) -> bytes | None:
        """Return the report that waits for the host, and let it go."""
        taken, self.waiting = self.waiting, None
        return taken

    def take_media(self) -> bytes | None:
        """Return the report of media keys that waits for the host, and let it go."""
        taken, self.media.waiting = self.media.waiting, None
        return taken
