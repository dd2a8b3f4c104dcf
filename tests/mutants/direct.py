"""The suite's own tests of single promises, run on a library that is already built."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

from tests.firmware import (
    test_engine,
    test_host_usb,
    test_in_turn,
    test_kept_base,
    test_lights,
    test_media,
    test_media_hosts,
    test_media_usb,
    test_pointer,
    test_pointer_usb,
    test_sparks,
)
from tests.firmware.host_build import HostKeyboard
from tests.firmware.test_media_usb import MediaKeyboard

USUAL = {"pad": "small", "loader": "loader", "board": "square", "keys": "usb", "timed": "timed"}
PADS = {
    test_engine: USUAL,
    test_sparks: USUAL,
    test_host_usb: USUAL,
    test_in_turn: {"turns": "turns", "typist": "typist"},
    test_kept_base: {"kept": "kept"},
    test_lights: {"board": "lights usb", "engine": "lights"},
    test_media: {"pad": "media"},
    test_media_hosts: {"keys": "media usb", "one": "one media key"},
    test_media_usb: {"keys": "media usb"},
    test_pointer: {"pad": "pointer"},
    test_pointer_usb: {"keys": "pointer usb"},
}
"""What the tests of a file call their keyboard, and which it is."""

ALSO = {"one system key": "one media key"}
"""A keyboard that has the tests of another one."""


def _calls(test: Callable[..., None]) -> list[tuple[Any, ...]]:
    """Return what a test is called with after its keyboard: once, or for each of its parameters."""
    marks = [mark for mark in getattr(test, "pytestmark", []) if mark.name == "parametrize"]
    if not marks:
        return [()]
    return [values if isinstance(values, tuple) else (values,) for values in marks[0].args[1]]


def _tests(module: ModuleType) -> Iterator[tuple[str, Callable[..., None]]]:
    for name, test in inspect.getmembers(module, inspect.isfunction):
        pads = [one for one in inspect.signature(test).parameters if one in PADS[module]]
        is_random = "random" in name  # those play a model beside it, and would take long
        if (name.startswith("test_") and pads and not is_random) or pads == ["one"]:
            yield PADS[module][pads[0]], test


def tests_of(pad: str) -> list[tuple[Callable[..., None], tuple[Any, ...]]]:
    """Return the tests of one keyboard, each with what it is called with."""
    return [
        (test, words)
        for module in PADS
        for whose, test in _tests(module)
        if whose == ALSO.get(pad, pad)
        for words in _calls(test)
    ]


def first_failure(pad: str, keyboard: HostKeyboard, still: Callable[[], None]) -> str | None:
    """Return the name of the first test that fails, or after which the port has seen a fault."""
    for test, words in tests_of(pad):
        still()
        keyboard.restart()
        if type(keyboard) is MediaKeyboard:
            keyboard.configure()
        try:
            test(keyboard, *words)
        except Exception:  # what a mutant answers may be nothing that a test can read
            return test.__name__
        if keyboard.faults():
            return test.__name__
    return None
