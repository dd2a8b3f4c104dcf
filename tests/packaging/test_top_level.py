"""The checkout has its ten entries and dot-files at its top, and nothing that was left behind."""

from __future__ import annotations

import subprocess
from pathlib import Path

ROOT = Path(__file__).parents[2]
ENTRIES = {
    *("pyproject.toml", "README.md", "DEVELOPERS.md", "LICENSE"),
    *("matrixgen", "grammar", "templates", "tests", "boards", "examples"),
}


def test_nothing_else_is_kept_at_the_top_of_the_checkout():
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True)
    tops = {path.split("/")[0] for path in listed.stdout.decode().split("\0") if path}
    assert {top for top in tops if not top.startswith(".")} == ENTRIES
