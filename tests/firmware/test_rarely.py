"""Engine and model do the same where random fingers seldom come."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.firmware.rarely import RARELY, play_rarely
from tests.firmware.test_engine_and_oracle import BOARDS, Pair


@pytest.mark.parametrize("name", RARELY)
def test_what_fingers_seldom_do_gives_the_model_s_reports(name: str, tmp_path: Path) -> None:
    pair = Pair(BOARDS[name](), tmp_path)
    play_rarely(pair, name)
    assert pair.engine.faults() == 0
