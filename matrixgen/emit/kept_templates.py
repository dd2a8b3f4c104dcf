"""Templates as Jinja compiled them, kept from one run to the next: it takes as long as all else.

They are code, as Python's own compiled modules are, and lie where only the user writes. Jinja takes
what is kept only for the same source and its own version.
"""

from __future__ import annotations

from contextlib import suppress

import jinja2
from jinja2.bccache import Bucket

from matrixgen.cache import cache_folder, keep, kept


class KeptTemplates(jinja2.BytecodeCache):
    """What was compiled for one kind of environment: others compile the same source otherwise."""

    def __init__(self, kind: str) -> None:
        self._folder = cache_folder() / "templates" / kind

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give a template what is kept of it."""
        content = kept(self._folder / bucket.key)
        if content:
            with suppress(ValueError, EOFError, TypeError):
                bucket.bytecode_from_string(content)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a template, wherever there is a folder for that."""
        with suppress(OSError):
            keep(bucket.bytecode_to_string(), self._folder / bucket.key)
