"""What a page has besides while its file is followed: it draws itself again when it changes."""

from __future__ import annotations

import hashlib

from markupsafe import Markup

from matrixgen import __version__
from matrixgen.emit.sheet.content_policy import with_policy
from matrixgen.emit.sheet.pictures import markup, style_text
from matrixgen.record import Record

_MARK = '<meta name="drawing" content="{}">'
_UNMARKED = _MARK.format("")


class Followed(Record):
    """What such a page is given: `waits` says what of it is still being made, empty for nothing."""

    waits: str = ""

    @property
    def mark(self) -> Markup:
        """The place of what tells one drawing from another; `marked` fills it in."""
        return Markup(_UNMARKED)  # a constant

    @property
    def script(self) -> str:
        """What listens for another drawing, and keeps the place in the page."""
        return style_text("follow.js")


def words_page(title: str, words: str) -> bytes:
    """Return a page of plain text, for a file of which nothing can be drawn."""
    template = markup().get_template("sheet/words.html.j2")
    style = style_text("page.css")
    followed = Followed()
    text = template.render(
        title=title, words=words, followed=followed, style=style, version=__version__
    )
    return with_policy(text).encode("utf-8")


def marked(page: bytes) -> tuple[str, bytes]:
    """Return a name for what a followed page shows, and the page with that name in its mark.

    Pages that show the same have one name.
    """
    name = hashlib.sha256(page).hexdigest()[:16]
    return name, page.replace(_UNMARKED.encode(), _MARK.format(name).encode(), 1)
