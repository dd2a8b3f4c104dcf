"""Debian's browsers as playwright starts them; one of its own, which it would fetch, is not needed.

The suite runs in Chromium, and the long run's part `firefox` in Firefox: MATRIXGEN_BROWSERS.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright

from tests.browser.paper import chromium_pdf, firefox_pdf
from tests.browser.relay import Relay
from tests.browser.screens import ChromiumScreen, FirefoxScreen, Screen
from tests.patience import HANGS_S


def asked_for(settings: Mapping[str, str] = os.environ) -> list[str]:
    """Return the names of the browsers that a run with such an environment is in."""
    return settings.get("MATRIXGEN_BROWSERS", "chromium").split()


PATIENCE_MS = HANGS_S * 1000

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)

FIREFOX = Path(__file__).with_name("firefox.sh")
PREFERENCES = {
    "dom.w3c_touch_events.enabled": 1,  # as on a computer that has a touch screen
    "network.proxy.type": 1,  # whatever it may want of another computer goes to a port that is shut
    "network.proxy.socks": "127.0.0.1",
    "network.proxy.socks_port": 9,
    "network.proxy.socks_remote_dns": True,
}
"""While it listens, Firefox itself turns off updates, telemetry and first pages (its own source,
`RecommendedPreferences.sys.mjs`); these come on top."""


@dataclass(frozen=True)
class Started:
    """A browser, what puts a touch screen under a page, and what prints one on A4 or Letter."""

    browser: Browser
    screen: Callable[[Page], Screen]
    printed: Callable[..., bytes]


@contextmanager
def chromium(playwright: Playwright) -> Iterator[Started]:
    started = playwright.chromium.launch(
        executable_path=CHROMIUM, args=list(ARGUMENTS), timeout=PATIENCE_MS
    )
    yield Started(started, ChromiumScreen, chromium_pdf)
    started.close()


@contextmanager
def firefox(playwright: Playwright) -> Iterator[Started]:
    """A relay stands between (see there); `channel` is what makes playwright speak BiDi."""
    with Relay() as relay:
        started = playwright.firefox.launch(
            channel="moz-firefox",
            executable_path=FIREFOX,
            env={**os.environ, "RELAY": relay.url},
            firefox_user_prefs=dict(PREFERENCES),
            timeout=PATIENCE_MS,
        )
        yield Started(started, partial(FirefoxScreen, relay), partial(firefox_pdf, relay))
        started.close()


START: dict[str, Callable[[Playwright], AbstractContextManager[Started]]] = {
    "chromium": chromium,
    "firefox": firefox,
}


def only_chromium(page: Page, why: str) -> None:
    """Skip a test that asks what another browser cannot be asked."""
    assert page.context.browser
    if page.context.browser.browser_type.name != "chromium":
        pytest.skip(f"only Chromium {why}")
