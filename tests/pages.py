"""The pages that people read: every Markdown file of the checkout that is not a test's own."""

from __future__ import annotations

import re
from pathlib import Path

CHECKOUT = Path(__file__).parents[1]
WITH_PAGES = ("matrixgen", "grammar", "templates", "boards", "examples")
"""Folders whose README.md files are pages; so are those of the checkout itself."""

PAGES = tuple(
    path.relative_to(CHECKOUT).as_posix()
    for path in (
        *sorted(CHECKOUT.glob("*.md")),
        *sorted(path for name in WITH_PAGES for path in (CHECKOUT / name).rglob("README.md")),
    )
)
"""Their paths from the checkout, in order."""


def page(name: str) -> str:
    """Return the text of a page."""
    return (CHECKOUT / name).read_text("utf-8")


def anchors(text: str) -> set[str]:
    """Return what a link into a page may name: its headings, as sites of repositories spell them.

    Common practice, no source: small letters, blanks as `-`, and no punctuation but `-` and `_`.
    """
    headings = re.findall(r"^#+ (.+)$", re.sub(r"^```.*?^```", "", text, flags=re.M | re.S), re.M)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}
