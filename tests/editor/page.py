"""The lines of `grammar/editors.md` that a user copies into an editor's settings."""

from __future__ import annotations

import re
from pathlib import Path

PAGE = Path(__file__).parents[2] / "grammar/editors.md"


def lines_for(language: str) -> str:
    """The only block of a language on the page."""
    (found,) = re.findall(rf"^```{language}\n(.*?)^```$", PAGE.read_text("utf-8"), re.M | re.S)
    return found
