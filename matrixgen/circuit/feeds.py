"""What draws the lines of a matrix up: their own pull-ups, and those of others by pressed keys.

What the board has on a pin (`boards/on_board.py`) counts with its pull-up.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from matrixgen.boards import Mounted
from matrixgen.boards.on_board import Feed, strongest_feed
from matrixgen.circuit.network import Network
from matrixgen.model import Line
from matrixgen.record import Record


class Feeds(Record):
    """A keyboard on a controller, asked what brings current into its lines."""

    mounted: Mounted
    network: Network

    def of(self, line: Line) -> Feed:
        """Return what draws a line up at the most."""
        return self._feeds[line.name.text]

    def own_current(self, drive: int) -> float:
        """Return what a driven pin's own pull-up and part bring in while it is low, in amperes."""
        line, profile = self.network.matrix.drives[drive], self.mounted.profile
        family, feed = profile.family_record, self.of(line)
        ampere = feed.volts / feed.ohm
        if family is None or family.pulls_up_while_low:
            return ampere
        pin = self.mounted.pin_of(line)
        return max(0.0, ampere - profile.supply_volts / profile.pull_up_of(pin).min)

    def into_sense(self, sense: int, drive: int, ghosts: bool) -> list[float]:
        """Return what other lines can bring into a sensed line, in amperes, most first.

        They do so by ways that avoid the driven line.
        """
        into = self.network.lines_into(sense, drive, ghosts=ghosts)
        return self._currents_of(into.drives, into.senses) if into.drives or into.senses else []

    def into_drive(self, drive: int, ghosts: bool) -> list[float]:
        """Return what lines without a key on a driven line can bring into it by others' keys."""
        if (drive, ghosts) not in self._known_feeds:
            own = self.network.senses_of(drive)
            into = [self.network.lines_into(sense, drive, ghosts=ghosts) for sense in own]
            drives = {number for lines in into for number in lines.drives}
            senses = {number for lines in into for number in lines.senses}.difference(own)
            self._known_feeds[drive, ghosts] = self._currents_of(drives, senses)
        return self._known_feeds[drive, ghosts]

    @cached_property
    def _known_feeds(self) -> dict[tuple[int, bool], list[float]]:
        return {}

    def _currents_of(self, drives: Iterable[int], senses: Iterable[int]) -> list[float]:
        lines = [
            *(self.network.matrix.drives[number] for number in drives),
            *(self.network.matrix.senses[number] for number in senses),
        ]
        feeds = map(self.of, lines)
        return sorted((feed.volts / feed.ohm for feed in feeds), reverse=True)

    @cached_property
    def _feeds(self) -> dict[str, Feed]:
        lines = (*self.network.matrix.drives, *self.network.matrix.senses)
        profile, pin_of = self.mounted.profile, self.mounted.pin_of
        return {line.name.text: strongest_feed(profile, pin_of(line)) for line in lines}
