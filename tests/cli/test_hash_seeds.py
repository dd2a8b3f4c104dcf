"""Same bytes, however Python hashes strings: each process has its own seed, and its own cache.

Python shuffles sets of strings from one process to the next (its documentation, "Command line and
environment", `PYTHONHASHSEED`), so two runs inside one process agree whatever the program does.
"""

from __future__ import annotations

import json
import marshal
import os
import shutil
import subprocess
import sys
from pathlib import Path

from matrixgen.cache import kept
from tests.amounts import amount

CHECKOUT = Path(__file__).parents[2]
SEEDS = range(3, 3 + amount("MATRIXGEN_HASH_SEEDS", suite=2, long=20))
"""From 3, since 3 and 4 shuffle the classes in a DXF, of which there are two."""


def everything(folder: Path, seed: int) -> dict[str, bytes]:
    """Return what one process writes, its cache included, by path; the folder is gone after."""
    folder.mkdir()
    environment = os.environ | {
        "PYTHONHASHSEED": str(seed),
        "XDG_CACHE_HOME": str(folder / "cache"),
        "PYTHONPATH": str(CHECKOUT),
    }
    words = (sys.executable, "-m", "tests.cli.everything", str(folder))
    subprocess.run(words, env=environment, check=True)
    paths = [path for path in folder.rglob("*") if path.is_file() and ".git" not in path.parts]
    named = {path.relative_to(folder).as_posix(): in_order(path) for path in paths}
    shutil.rmtree(folder)  # messages name it, so the next process writes into the same one
    return named


def in_order(path: Path) -> bytes:
    """Return a file's bytes; of the grammar's tables, what `marshal` reads from them.

    It writes equal things in several ways, depending on which of them are one object.
    """
    if path.suffix != ".tables":
        return path.read_bytes()
    _, plain = marshal.loads(kept(path))
    return json.dumps(plain | {"ignored": sorted(plain["ignored"])}).encode()


def test_the_same_files_give_the_same_bytes_whatever_the_seed(tmp_path):
    first, *others = (everything(tmp_path / "out", seed) for seed in SEEDS)
    assert any(name.endswith(".tables") for name in first)
    assert {"plate.dxf", "starter.keys", "knot-21.html", "merged.keys"} <= first.keys()
    for other in others:
        assert other.keys() == first.keys()
        assert [name for name in first if first[name] != other[name]] == []
