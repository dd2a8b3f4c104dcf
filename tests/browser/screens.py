"""A touch screen under a page, with fingers by their names: each browser is told in its own way."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import Any

from playwright.sync_api import Page

from tests.browser.relay import Relay

Place = tuple[float, float]
"""Pixels of the window."""


class Screen(ABC):
    """Fingers go down together, move one by one, and come up together."""

    @abstractmethod
    def down(self, **fingers: Place) -> None:
        """Put fingers on it, each at its place."""

    @abstractmethod
    def move(self, finger: str, place: Place) -> None:
        """Move a finger that is down."""

    @abstractmethod
    def up(self, *fingers: str) -> None:
        """Take fingers off it."""


class ChromiumScreen(Screen):
    """By Chromium's protocol for its developers' tools, which playwright passes on."""

    def __init__(self, page: Page) -> None:
        self.session = page.context.new_cdp_session(page)
        self.fingers: dict[str, Place] = {}

    def down(self, **fingers: Place) -> None:
        self.fingers |= fingers
        self._tell("touchStart", self.fingers)

    def move(self, finger: str, place: Place) -> None:
        self.fingers[finger] = place
        self._tell("touchMove", self.fingers)

    def up(self, *fingers: str) -> None:
        self._tell("touchEnd", {finger: self.fingers.pop(finger) for finger in fingers})

    def take_away(self) -> None:
        """Let the system take all fingers for something else."""
        self.fingers.clear()
        self._tell("touchCancel", {})

    def _tell(self, kind: str, fingers: dict[str, Place]) -> None:
        points = [{"x": x, "y": y, "id": int(finger[1:])} for finger, (x, y) in fingers.items()]
        self.session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


class FirefoxScreen(Screen):
    """By WebDriver BiDi, `input.performActions`: one source of input per finger."""

    def __init__(self, relay: Relay, page: Page) -> None:
        self.relay = relay
        self.context = relay.context_of(page)

    def down(self, **fingers: Place) -> None:
        self._act({f: [_moved(place), _button("pointerDown")] for f, place in fingers.items()})

    def move(self, finger: str, place: Place) -> None:
        self._act({finger: [_moved(place)]})

    def up(self, *fingers: str) -> None:
        self._act({finger: [_button("pointerUp")] for finger in fingers})

    def _act(self, fingers: dict[str, list[dict[str, Any]]]) -> None:
        touch = {"type": "pointer", "parameters": {"pointerType": "touch"}}
        sources = [{**touch, "id": finger, "actions": does} for finger, does in fingers.items()]
        self.relay.command("input.performActions", context=self.context, actions=sources)


def _moved(place: Place) -> dict[str, Any]:
    return {"type": "pointerMove", "x": place[0], "y": place[1]}


def _button(kind: str) -> dict[str, Any]:
    return {"type": kind, "button": 0}
