"""`matrixgen load` behind a pseudo-terminal: what is drawn while a slow boot loader is written."""

from __future__ import annotations

import re
import threading
import time
from collections.abc import Callable

import pytest

from matrixgen.cli.progress import BAR_AFTER
from tests.load.loader import Chip, OnTerminal
from tests.load.stick_images import hex_of, image_of
from tests.terminal import COLUMNS, CTRL_C, Terminal

DRAWN_EVERY_S = 0.1
"""tqdm's `mininterval`: two steps that are closer are drawn as one."""

ANSWERS_AFTER_S = 2
"""The longest that a page is held back: less than a load waits for it."""


class SlowChip(Chip):
    """Its first page takes until a bar is due, and each one after it until it may go on.

    If nobody lets it go on for a while, it does so by itself, lest the load gives up.
    """

    def __init__(self) -> None:
        super().__init__()
        self.page_seen = threading.Semaphore(0)

    def take(self, byte: int) -> bytes:
        reads = self.commands.count(b"g")
        answer = super().take(byte)
        if self.commands.count(b"g") == reads:
            return answer
        if reads:
            time.sleep(DRAWN_EVERY_S + 0.02)
            self.page_seen.acquire(timeout=ANSWERS_AFTER_S)
        else:
            time.sleep(BAR_AFTER + 0.05)
        return answer


@pytest.fixture
def chip() -> SlowChip:
    return SlowChip()


@pytest.fixture
def loading(tmp_path, chip) -> Callable[..., Terminal]:
    """What starts a load of so many bytes in a terminal, with more variables of its environment."""
    image = tmp_path / "pad.hex"
    words = ("load", str(image), "--controller", "stick-32u4", "--port", OnTerminal(chip).path)

    def started(size: int, **settings: str) -> Terminal:
        image.write_text(hex_of(image_of(size)), "ascii")
        return Terminal(*words, **settings)

    return started


def lines(terminal: Terminal) -> list[str]:
    return terminal.text.rstrip().splitlines()


def test_a_bar_grows_on_a_line_of_its_own_and_goes_when_all_is_written(loading, chip):
    terminal = loading(1000)
    shown: list[int] = []
    while terminal.read():
        for bar in (line for line in lines(terminal) if line.endswith("%")):
            found = re.fullmatch(r"loading █+[▉▊▋▌▍▎▏]? +(\d+)%", bar)
            assert found and COLUMNS - 10 < len(bar) < COLUMNS, bar
            if int(found[1]) not in shown:
                shown.append(int(found[1]))
                chip.page_seen.release()
    assert shown[:7] == [12, 25, 38, 50, 62, 75, 88], "a page was written unseen"
    assert terminal.status() == 0
    first, last = lines(terminal)
    assert first.endswith("a boot loader that calls itself `STANDIN`")
    assert last == "1,000 bytes written, read back and correct"


def test_an_interrupted_load_says_so_below_its_bar_which_may_be_of_ascii(loading):
    terminal = loading(3000, PYTHONIOENCODING="ascii")
    terminal.wait_for("loading", "%")
    terminal.type(CTRL_C)
    assert terminal.status() == 130
    _, bar, *said = lines(terminal)
    assert re.fullmatch(r"loading #+ +\d+%\^C", bar)
    assert said == [
        "matrixgen: interrupted",
        "    help: nothing is broken: the boot loader was not changed; load again",
    ]
