"""What of an image depends on the file: every generated C file, without its comments."""

from __future__ import annotations

import re
from pathlib import Path

from matrixgen.emit.firmware_tree import rendered
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.jobs.examine import examine_text
from matrixgen.resources import resource

COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)


def tables_of(text: str) -> dict[str, str]:
    """Return the generated files of a finished file's first controller, as a compiler sees them."""
    (mounted, *_) = examine_text("pad.keys", text, Path()).mounted
    view = firmware_view(mounted, "pad.keys")
    root = resource("templates") / "firmware"
    templates = [*(root / "tables").glob("*.j2"), *(root / "ports" / view.port).glob("*.[ch].j2")]
    made = {path.name: rendered(path, view).decode() for path in sorted(templates)}
    return {name: " ".join(COMMENT.sub(" ", text).split()) for name, text in made.items()}
