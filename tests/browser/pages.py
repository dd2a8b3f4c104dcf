"""A small page around the section "Press it", and what tests do there."""

from __future__ import annotations

import functools
import html
from typing import Any

from playwright.sync_api import Page

from matrixgen.emit.press_section import press_section
from matrixgen.jobs.press import press_data_of

STEP = 50
"""How far apart the keys are, in pixels; they lie in one row."""

POLICY = (
    "default-src 'none'; script-src 'unsafe-inline' 'wasm-unsafe-eval'; style-src 'unsafe-inline'"
)


@functools.cache
def data_of(make: Any) -> dict[str, Any]:
    """Return the data of a keyboard by the function that makes it; its engine is made once."""
    return press_data_of(make(), "pad.keys")


def page_text(data: dict[str, Any]) -> str:
    """Return a whole page whose picture has a square for each key."""
    names = [key["name"] for key in data["keys"]]
    keys = "".join(_key(number, name) for number, name in enumerate(names))
    picture = f'<svg width="{STEP * len(names)}" height="{STEP}">{keys}</svg>'
    second = "".join(f"<i data-key={html.escape(name)!r}></i>" for name in names)
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A page</title>'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}"></head><body>'
        f"{press_section(data, picture)}<p style='height: 3000px'>{second}</p></body></html>"
    )


def _key(number: int, name: str) -> str:
    shown = html.escape(name)
    return (
        f'<g data-key="{shown}" role="img" aria-label="{shown}">'
        f'<rect x="{STEP * number}" y="0" width="{STEP - 5}" height="{STEP - 5}"/>'
        f'<text x="{STEP * number + 5}" y="20">{shown}</text></g>'
    )


HALTED = """pressIt.board.then((board) => {
    if (board) {
        window.board = board;
        board.halt();
        board.restart();
    }
})"""

CLASSES = """() => [...document.querySelectorAll("[data-key]")].map(
    (element) => [element.dataset.key, element.getAttribute("class") || ""])"""

REPORTS = """() => [...document.querySelectorAll("[data-press=log] li")].map((line) =>
    [".press-kind", ".press-words"].map((part) => line.querySelector(part).textContent).join(": "))
    .reverse()"""


class Live:
    """The section in a page, just plugged in. Its clock stands still unless a test lets it run."""

    def __init__(self, page: Page) -> None:
        self.page = page
        page.evaluate(HALTED)

    def pass_ms(self, milliseconds: int) -> None:
        self.page.evaluate("(ms) => board.pass(ms)", milliseconds)

    def place(self, name: str) -> tuple[float, float]:
        """Return where to point at a key, in pixels of the window."""
        cap = self.page.locator(f'svg [data-key="{name}"] rect')
        cap.scroll_into_view_if_needed()
        box = cap.bounding_box()
        assert box is not None
        return box["x"] + STEP / 3, box["y"] + STEP / 3

    def tap(self, *names: str, down_ms: int = 30) -> None:
        """Press keys one after the other and let them go in turn, without any device."""
        for is_down in (True, False):
            for name in names if is_down else reversed(names):
                self.page.evaluate(
                    "([key, isDown]) => isDown ? board.fingers.hold(key, key)"
                    " : board.fingers.letGo(key)",
                    [name, is_down],
                )
                self.pass_ms(down_ms)

    def classes(self, name: str) -> list[str]:
        """Return the classes of a key in the live picture; a second one has the same."""
        return self._every_class()[name]

    def _every_class(self) -> dict[str, list[str]]:
        pairs = [(name, said.split()) for name, said in self.page.evaluate(CLASSES)]
        first, second = dict(pairs[: len(pairs) // 2]), dict(pairs[len(pairs) // 2 :])
        assert first == second, "two pictures say different things"
        return first

    def part(self, name: str) -> str:
        return self.page.locator(f'[data-press="{name}"]').text_content() or ""

    @property
    def down(self) -> list[str]:
        return [name for name, said in self._every_class().items() if "is-down" in said]

    @property
    def reports(self) -> list[str]:
        """What left the keyboard, in words, the oldest first."""
        found: list[str] = self.page.evaluate(REPORTS)
        return found

    @property
    def text(self) -> str:
        """What was typed, with `|` where the caret is."""
        return f"{self.part('before')}|{self.part('after')}"
