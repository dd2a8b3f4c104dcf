"""What of an image depends on the file: every generated C file, without its comments."""

from __future__ import annotations

import functools
import re

from matrixgen.emit.firmware_tree import rendered
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.resources import resource
from tests.texts import examined

COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)


@functools.cache
def tables_of(text: str) -> dict[str, str]:
    """Return the generated files of a finished file's first controller, as a compiler sees them."""
    (mounted, *_) = examined(text).mounted
    view = firmware_view(mounted, "pad.keys")
    root = resource("templates") / "firmware"
    templates = [*(root / "tables").glob("*.j2"), *(root / "ports" / view.port).glob("*.[ch].j2")]
    made = {path.name: rendered(path, view).decode() for path in sorted(templates)}
    return {name: " ".join(COMMENT.sub(" ", text).split()) for name, text in made.items()}
