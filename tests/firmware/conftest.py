"""The firmware of a keyboard that a test names, on this computer, and fingers on it."""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from matrixgen.model import Action, Keyboard
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.firmware.scripts import Fingers, board
from tests.firmware.test_engine_and_oracle import Pair


@pytest.fixture
def fingers(tmp_path: Path) -> Callable[..., Fingers]:
    def made(base: Mapping[str, Action], **more: object) -> Fingers:
        return Fingers(Pair(board(base, **more), tmp_path))

    return made


@pytest.fixture(scope="session")
def started(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., HostKeyboard]:
    """A pad's firmware, compiled once, that starts anew each time it is asked for."""

    @functools.cache
    def built(pad: Callable[[], Keyboard], compiler: str) -> HostKeyboard:
        keyboard, folder = pad(), tmp_path_factory.mktemp("keyboard")
        return HostKeyboard(shared_library(keyboard, folder, compiler), host_view(keyboard))

    def anew(pad: Callable[[], Keyboard], compiler: str = "gcc") -> HostKeyboard:
        made = built(pad, compiler)
        made.restart()
        return made

    return anew
