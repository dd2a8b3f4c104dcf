"""One browser for all tests of this folder, and pages in which nothing may go wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from matrixgen.emit.sheet import page as written
from matrixgen.emit.sheet import sheet_of
from matrixgen.jobs.press import press_data_of
from tests.browser.browsers import PATIENCE_MS, START, Started, asked_for
from tests.browser.pages import Live, page_text
from tests.examples.shipped import example


def pytest_configure(config: pytest.Config) -> None:
    expect.set_options(timeout=PATIENCE_MS)


@pytest.fixture(scope="session", params=asked_for())
def started(request: pytest.FixtureRequest) -> Iterator[Started]:
    with sync_playwright() as playwright, START[request.param](playwright) as started:
        yield started


@pytest.fixture(scope="session")
def browser(started: Started) -> Browser:
    return started.browser


REFUSED = """addEventListener("securitypolicyviolation", (event) =>
    console.error(`the policy refused ${event.effectiveDirective}`))"""
"""What tells of it where the browser itself does so in none of the messages that are passed on."""


class Watched:
    """A page of its own, and what it has said or asked for that it should not have."""

    def __init__(self, browser: Browser) -> None:
        self.complaints: list[str] = []
        self.page = browser.new_context(has_touch=True).new_page()
        self.page.set_default_timeout(PATIENCE_MS)
        self.page.add_init_script(REFUSED)
        self.page.on("console", lambda message: self.complaints.append(f"console: {message.text}"))
        self.page.on("pageerror", lambda error: self.complaints.append(f"error: {error}"))
        self.page.on("request", lambda request: self._note(request.url))

    def _note(self, url: str) -> None:
        if not (url.startswith("file:") and url.endswith("/page.html")):
            self.complaints.append(f"request: {url}")


@pytest.fixture(scope="session")
def watched(browser: Browser) -> Watched:
    """One page for all tests: each loads its own file into it."""
    return Watched(browser)


@pytest.fixture
def page(watched: Watched) -> Iterator[Page]:
    """A page that may say nothing on its console, and ask for nothing but its own file."""
    watched.complaints.clear()
    yield watched.page
    assert watched.complaints == []


@pytest.fixture
def own_page(browser: Browser) -> Iterator[Page]:
    """The same in a window of its own, for a test that changes what a page keeps or is shown on."""
    watched = Watched(browser)
    yield watched.page
    watched.page.context.close()
    assert watched.complaints == []


@pytest.fixture
def live(page: Page, tmp_path: Path) -> Callable[[dict[str, Any]], Live]:
    """Return what opens a page with the section "Press it", made from data for its script."""

    def opened(data: dict[str, Any]) -> Live:
        file = tmp_path / "page.html"
        file.write_text(page_text(data), encoding="utf-8")
        page.goto(file.as_uri())
        return Live(page)

    return opened


@pytest.fixture
def sheet_page(own_page: Page, tmp_path: Path) -> Callable[[str], Page]:
    """Return what opens the sheet of an example."""

    def opened(name: str) -> Page:
        shipped = example(name)
        file = tmp_path / "page.html"
        press = press_data_of(shipped.keyboard, str(shipped.path))
        sheet = sheet_of(shipped.keyboard, str(shipped.path), press, shipped.mounted)
        file.write_bytes(written(sheet))
        own_page.goto(file.as_uri())
        return own_page

    return opened
