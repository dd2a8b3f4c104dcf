"""Fingers on a keyboard that a test names: engine and model are both asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from matrixgen.model import Action
from tests.firmware.scripts import Fingers, board
from tests.firmware.test_engine_and_oracle import Pair


@pytest.fixture
def fingers(tmp_path: Path) -> Callable[..., Fingers]:
    def made(base: Mapping[str, Action], **more: object) -> Fingers:
        return Fingers(Pair(board(base, **more), tmp_path))

    return made
