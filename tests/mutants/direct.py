"""The suite's own tests of single promises, run on a library that is already built."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

from tests.firmware import test_engine, test_host_usb, test_sparks
from tests.firmware.host_build import HostKeyboard

PADS = {"pad": "small", "loader": "loader", "board": "square", "keys": "usb", "timed": "timed"}
"""What a test calls its keyboard, and which it is."""


def _calls(test: Callable[..., None]) -> list[tuple[Any, ...]]:
    """Return what a test is called with after its keyboard: once, or for each of its parameters."""
    marks = [mark for mark in getattr(test, "pytestmark", []) if mark.name == "parametrize"]
    if not marks:
        return [()]
    return [values if isinstance(values, tuple) else (values,) for values in marks[0].args[1]]


def _tests(module: ModuleType) -> Iterator[tuple[str, Callable[..., None]]]:
    for name, test in inspect.getmembers(module, inspect.isfunction):
        pads = [one for one in inspect.signature(test).parameters if one in PADS]
        if name.startswith("test_") and pads:
            yield PADS[pads[0]], test


def tests_of(pad: str) -> list[tuple[Callable[..., None], tuple[Any, ...]]]:
    """Return the tests of one keyboard, each with what it is called with."""
    return [
        (test, words)
        for module in (test_engine, test_sparks, test_host_usb)
        for whose, test in _tests(module)
        if whose == pad
        for words in _calls(test)
    ]


def first_failure(pad: str, keyboard: HostKeyboard, still: Callable[[], None]) -> str | None:
    """Return the name of the first test that fails."""
    for test, words in tests_of(pad):
        still()
        keyboard.restart()
        try:
            test(keyboard, *words)
        except AssertionError:
            return test.__name__
    return None
