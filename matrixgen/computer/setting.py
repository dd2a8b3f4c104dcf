"""What a keyboard's file says of the computer: its layout and system, and the words for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from matrixgen.layouts import HostLayout, KeyWords, System, layout_named
from matrixgen.layouts.strokes import SYSTEM_WORDS
from matrixgen.model import Keyboard
from matrixgen.model.actions.behaviour import PressWords, by_place
from matrixgen.usages import word_of


def layout_of(keyboard: Keyboard) -> HostLayout | None:
    """Return the layout that a file names for its computer; None where it names none."""
    if keyboard.computer is None:
        return None
    system = keyboard.system.text.casefold() if keyboard.system else None
    return layout_named(keyboard.computer.text, cast("System | None", system))


def set_to(layout: HostLayout) -> str:
    """Return a layout in words, such as `German (de) on Windows`."""
    on = f" on {SYSTEM_WORDS[layout.system]}" if layout.system else ""
    return f"{layout.language} ({layout.name}){on}"


def types_as(keyboard: Keyboard) -> str | None:
    """Return the sentence that says which computer a page is about; None where no file says."""
    layout = layout_of(keyboard)
    if layout is None:
        return None
    return (
        f"Types as on a computer set to {set_to(layout)}; a computer that is set otherwise types "
        "otherwise."
    )


def key_words(layout: HostLayout | None) -> Callable[[int], str]:
    """Return what keys are called, by their usages: by a layout, or by their places."""
    return word_of if layout is None else KeyWords(layout).key


def press_words(layout: HostLayout | None) -> PressWords:
    """Return what presses are called: by a layout, or by their places."""
    return by_place if layout is None else KeyWords(layout).stroke
