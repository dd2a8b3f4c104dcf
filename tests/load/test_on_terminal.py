"""`matrixgen load` behind a pseudo-terminal: what is drawn while a slow boot loader is written."""

from __future__ import annotations

import re
import time
from collections.abc import Callable

import pytest

from matrixgen.cli.progress import BAR_AFTER
from tests.load.loader import Chip, OnTerminal
from tests.load.stick_images import hex_of, image_of
from tests.terminal import COLUMNS, CTRL_C, Terminal


class SlowChip(Chip):
    """Its first page takes until a bar is due, and each one after it a moment."""

    def take(self, byte: int) -> bytes:
        reads = self.commands.count(b"g")
        answer = super().take(byte)
        if self.commands.count(b"g") > reads:
            time.sleep(0.05 if reads else BAR_AFTER + 0.05)
        return answer


@pytest.fixture
def loading(tmp_path) -> Callable[..., Terminal]:
    """What starts a load in a terminal, with more variables of its environment."""
    image = tmp_path / "pad.hex"
    image.write_text(hex_of(image_of(1600)), "ascii")
    words = ("load", str(image), "--controller", "stick-32u4", "--port")
    return lambda **settings: Terminal(*words, OnTerminal(SlowChip()).path, **settings)


def lines(terminal: Terminal) -> list[str]:
    return terminal.text.rstrip().splitlines()


def test_a_bar_grows_on_a_line_of_its_own_and_goes_when_all_is_written(loading):
    terminal = loading()
    shown: list[int] = []
    while terminal.read():
        for bar in (line for line in lines(terminal) if line.endswith("%")):
            found = re.fullmatch(r"loading █+[▉▊▋▌▍▎▏]? +(\d+)%", bar)
            assert found and COLUMNS - 10 < len(bar) < COLUMNS, bar
            shown.append(int(found[1]))
    assert len(set(shown)) > 2 and shown == sorted(shown)
    assert terminal.status() == 0
    first, last = lines(terminal)
    assert first.endswith("a boot loader that calls itself `STANDIN`")
    assert last == "1,600 bytes written, read back and found right"


def test_an_interrupted_load_says_so_below_its_bar_which_may_be_of_ascii(loading):
    terminal = loading(PYTHONIOENCODING="ascii")
    terminal.wait_for("loading", "%")
    terminal.type(CTRL_C)
    assert terminal.status() == 130
    _, bar, *said = lines(terminal)
    assert re.fullmatch(r"loading #+ +\d+%\^C", bar)
    assert said == [
        "matrixgen: interrupted",
        "    help: nothing is broken: the boot loader was not touched; load again",
    ]
