"""A page on paper that lies across or stands, as a PDF: each browser is asked in its own way."""

from __future__ import annotations

import base64

from playwright.sync_api import Page

from tests.browser.relay import Relay

SIZES_CM = {"A4": (21.0, 29.7), "Letter": (21.59, 27.94)}
"""Width and height of paper that stands (ISO 216, ANSI/ASME Y14.1)."""


def chromium_pdf(page: Page, paper: str, *, is_lying: bool = True) -> bytes:
    return page.pdf(format=paper, landscape=is_lying)


def firefox_pdf(relay: Relay, page: Page, paper: str, *, is_lying: bool = True) -> bytes:
    """Ask in centimetres, as BiDi has it: playwright's own call gives inches for them."""
    width, height = SIZES_CM[paper]
    printed = relay.command(
        "browsingContext.print",
        context=relay.context_of(page),
        orientation="landscape" if is_lying else "portrait",
        page={"width": width, "height": height},
    )
    return base64.b64decode(printed["data"])
