"""Jinja over our templates: all of them are rendered with these settings."""

from __future__ import annotations

import functools
import re
import textwrap
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from matrixgen.emit.c_text import c_comment, comment_row, in_columns, number_row
from matrixgen.emit.outside_text import markdown_text, seen
from matrixgen.model.prose import counted
from matrixgen.resources import resource

if TYPE_CHECKING:
    import jinja2


def markdown_cell(text: str) -> str:
    """Return `text` as code for a cell of a Markdown table, whatever characters it has."""
    fence = "`" * (max(map(len, re.findall("`+", text)), default=0) + 1)
    padding = " " if "`" in text else ""
    text = seen(text)
    return f"{fence}{padding}{text}{padding}{fence}".replace("|", "\\|")


def wrapped(text: str, mark: str) -> str:
    """Return an item of a list after its mark, in lines of 100 letters at most."""
    return textwrap.fill(text, 100, initial_indent=mark, subsequent_indent=" " * len(mark))


def over_templates(kind: str, filters: Mapping[str, Any], **own: Any) -> jinja2.Environment:
    """Return an environment over `templates/`: an unknown name in a template is an error.

    `own` are the settings that a kind of environment has besides. Jinja is imported here, since
    `check` draws nothing and need not wait for it.
    """
    import jinja2

    from matrixgen.emit.kept_templates import KeptTemplates

    made = jinja2.Environment(
        loader=jinja2.FileSystemLoader(resource("templates")),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        bytecode_cache=KeptTemplates(kind),
        **own,
    )
    made.filters |= {"counted": counted, **filters}
    return made


@functools.cache
def environment() -> jinja2.Environment:
    """Return the environment for C and Markdown, in which nothing is escaped as in HTML."""
    filters = {
        "cell": markdown_cell,
        "comment": c_comment,
        "comment_row": comment_row,
        "in_columns": in_columns,
        "number_row": number_row,
        "text": markdown_text,
        "wrapped": wrapped,
    }
    return over_templates("text", filters, autoescape=False)
