"""Nothing in the program is there for nobody: Vulture finds no name that nothing else uses.

What only tests use is a helper of theirs and lives there.
"""

from __future__ import annotations

import re
from pathlib import Path

import vulture

import matrixgen
from matrixgen.resources import resource

PACKAGE = Path(matrixgen.__file__).parent
CALLED_BY_OTHERS = {
    "__init_subclass__",
    "*Handler",  # expat
    "daemon_threads",  # socketserver, and http.server below
    "do_*",
    "log_message",
    "*_version",
    "formatter_class",  # argparse
    "*_bytecode",  # Jinja's cache of templates
    "write_fixed_meta_data_for_testing",  # ezdxf
    "compress_type",  # zipfile
    "dtr",  # pyserial
    "lsp_*",  # pygls, and attributes of its server below
    "position_encodings",
    "report_server_error",
}
BY_ITS_DECORATOR = ["@server.*", "@*.feature"]


def unused(folder: Path) -> set[str]:
    """Return the names that a folder's Python defines, used neither there nor in a template."""
    judge = vulture.Vulture(ignore_names=list(CALLED_BY_OTHERS), ignore_decorators=BY_ITS_DECORATOR)
    judge.scavenge([str(folder)], exclude=["*/_data/*"])
    templates = [path.read_text("utf-8") for path in resource("templates").rglob("*.j2")]
    words = set(re.findall(r"\w+", "\n".join(templates)))
    return {
        f"{one.name} in {one.filename.name}"
        for one in judge.get_unused_code()
        if one.name not in words
    }


def test_everything_is_used_by_somebody():
    assert unused(PACKAGE) == set()


def test_what_nobody_uses_is_found(tmp_path):
    (tmp_path / "lonely.py").write_text("def used():\n    return 1\n\n\nLONELY = used()\n", "utf-8")
    assert unused(tmp_path) == {"LONELY in lonely.py"}
