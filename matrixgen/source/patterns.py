"""Regular expressions of the reader, compiled once and only where one is asked for."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import re

BLOCK_START = r"\n(?=[^ \t\n#])"
"""A line feed before a line that opens a block."""


@cache
def pattern(regular: str) -> re.Pattern[str]:
    """Return a compiled regular expression: compiling takes time, and few files need any."""
    import re

    return re.compile(regular)
