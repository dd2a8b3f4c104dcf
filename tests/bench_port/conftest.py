"""The file that `learn` fills, without its wiring."""

from pathlib import Path

import pytest

from tests.probe.boards import small_text
from tests.probe.test_learn import without_wiring


@pytest.fixture
def file(tmp_path) -> Path:
    path: Path = tmp_path / "small.keys"
    path.write_text(without_wiring(small_text("with diodes")), encoding="utf-8")
    return path
