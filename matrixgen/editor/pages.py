"""The page of a finding as a file that an editor can open: there is no other address for it.

It is Markdown, which every editor shows, in the user's cache folder, word for word what `matrixgen
explain` prints.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from matrixgen.cache import cache_folder, put_in_place
from matrixgen.jobs.catalogue import find_problem, page

FOLDER = "pages"


@cache
def page_address(slug: str) -> str | None:
    """Return the address of a finding's page, which is written first; None where it cannot be."""
    problem = find_problem(slug)
    if problem is None:
        return None
    path = cache_folder() / FOLDER / f"{problem.slug}.md"
    text = f"{page(problem)}\n".encode()
    try:
        if not _has(path, text):
            put_in_place(text, path)
        return path.absolute().as_uri()
    except (OSError, ValueError):
        return None


def _has(path: Path, text: bytes) -> bool:
    return path.is_file() and path.read_bytes() == text
