"""Boot loaders that answer slowly, up to the patience that `avr109.py` and `link.py` write down."""

from __future__ import annotations

import pytest

from matrixgen.failure import Failure
from matrixgen.load import avr109
from matrixgen.load.avr109 import ANSWER_SECONDS, Avr109
from matrixgen.load.flashing import FlashJob, write_flash
from matrixgen.load.link import QUIET_SECONDS
from tests.load.clock import Clock
from tests.load.loader import Chip
from tests.load.stick_images import image_of
from tests.load.test_interrupted import FLASH


class SlowLine:
    """A line to a chip that takes so long for each answer, one after another."""

    def __init__(self, chip: Chip, seconds: float, clock: Clock) -> None:
        self.chip, self._seconds, self._clock = chip, seconds, clock
        self._ready_at = 0.0
        self._come: list[tuple[float, int]] = []

    def write(self, data: bytes) -> None:
        for byte in data:
            if answer := self.chip.take(byte):
                self._ready_at = max(self._ready_at, self._clock.now) + self._seconds
                self._come += [(self._ready_at, each) for each in answer]

    def read(self, count: int, seconds: float) -> bytes:
        """As pyserial does: until there are as many, or the time is over."""
        until = self._clock.now + seconds
        due = [at for at, _ in self._come if at <= until][:count]
        self._clock.now = max(self._clock.now, due[-1]) if len(due) == count else until
        got = bytes(byte for _, byte in self._come[: len(due)])
        del self._come[: len(due)]
        return got

    def drain(self) -> None:
        while self.read(4096, QUIET_SECONDS):
            pass


def loaded(seconds: float, clock: Clock, monkeypatch: pytest.MonkeyPatch, chip: Chip) -> bytes:
    monkeypatch.setattr(avr109, "time", clock)
    loader = Avr109(SlowLine(chip, seconds, clock))
    assert loader.wake() == "STANDIN"
    job = FlashJob(image_of(300), FLASH, 28672)
    write_flash(loader, job, lambda: None)
    assert chip.started
    return chip.program[:300]


@pytest.mark.parametrize("seconds", [0, 0.05, 0.79, 0.81, 1, 2, 4, 4.9])
def test_an_answer_that_takes_its_time_is_the_answer_to_its_question(seconds, clock, monkeypatch):
    chip = Chip()
    assert loaded(seconds, clock, monkeypatch, chip) == image_of(300)
    assert chip.flash[chip.loader_start :] == chip.loader_share


@pytest.mark.parametrize("seconds", [0.05, 1, 4])
@pytest.mark.parametrize("left", [b"B\x00\x80F", b"B\x00", b"T", b"A\x01"])
def test_a_slow_loader_that_waits_for_the_rest_of_a_command_is_woken(
    seconds, left, clock, monkeypatch
):
    chip = Chip()
    for byte in left:
        chip.take(byte)
    assert loaded(seconds, clock, monkeypatch, chip) == image_of(300)


def test_a_loader_that_takes_longer_than_the_patience_is_told_and_nothing_is_started(
    clock, monkeypatch
):
    chip = Chip()
    with pytest.raises(Failure):
        loaded(ANSWER_SECONDS + 0.1, clock, monkeypatch, chip)
    assert not chip.started
