"""Everything that the program writes, in one folder: `python -m tests.cli.everything OUT`.

Each command runs as a person would run it, and what it prints is kept beside the files that it
writes. No firmware is compiled. `test_hash_seeds.py` compares the folders of two processes.
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from itertools import pairwise
from pathlib import Path

from matrixgen.cli.main import main
from tests.amounts import IS_LONG, some

TESTS = Path(__file__).parents[1]
DRAWN = "knot-21.keys"
"""The example of which all drawings are made; of the others, what a keyboard does."""

WHOLE = (DRAWN, "sanderling-25.keys")
"""Examples of which the suite writes sources and a sheet too; the long run does of all."""

SOMEBODY = {
    f"GIT_{who}_{what}": said
    for who in ("AUTHOR", "COMMITTER")
    for what, said in {
        "NAME": "Somebody",
        "EMAIL": "somebody@example.org",
        "DATE": "1704067200 +0000",
    }.items()
}


def written() -> tuple[list[str], list[str]]:
    """Write the examples and the broken files into the current folder; return their names."""
    examples = sorted((TESTS.parent / "examples").glob("*/*.keys"))
    broken = {path.parent.name: path for path in TESTS.glob("rules/*/*/broken.keys")}
    broken |= {path.stem: path for path in TESTS.glob("messages/*.keys")}
    named = {path.name: path for path in examples}
    named |= {f"broken-{name}.keys": broken[name] for name in some(sorted(broken), 40)}
    for name, path in named.items():
        Path(name).write_bytes(path.read_bytes())
    return [path.name for path in examples], sorted(named.keys() - {one.name for one in examples})


def of_a_keyboard(name: str) -> Iterator[tuple[str, ...]]:
    """Yield the command lines about one example."""
    if IS_LONG or name in WHOLE:
        yield "build", "--sources", "--all", name
    yield "facts", name
    yield "figures", name
    yield "show", name
    if name == DRAWN:
        yield "sheet", name
        yield "sheet", "--svg", name
        yield "legends", name
        for kind in ("dxf", "svg", "3mf", "stl"):
            yield "plate", "-o", f"plate.{kind}", name


def commands() -> Iterator[tuple[str, ...]]:
    """Yield every command line."""
    examples, broken = written()
    for name in examples:
        yield from of_a_keyboard(name)
    for old, new in pairwise(examples):
        yield "diff", old, new
    yield "merge", "-o", "merged.keys", *examples[:3]
    in_git("kept.keys", examples)
    yield "history", "kept.keys"
    yield "check", "--json", *examples, *broken
    yield "check", "--coverage", *examples
    yield "check", "--fix", *broken
    yield "fmt", "--check", *examples
    yield "fit", DRAWN
    yield "new", "starter"
    yield ("boards", "--json")
    yield ("layouts", "--json")


def in_git(name: str, versions: list[str]) -> None:
    """Make each version a revision of one file, in a repository in the current folder."""
    os.environ.update(SOMEBODY, GIT_CONFIG_NOSYSTEM="1", GIT_CONFIG_GLOBAL=os.devnull)
    subprocess.run(("git", "init", "-q", "-b", "main"), check=True)
    for version in versions:
        Path(name).write_bytes(Path(version).read_bytes())
        for words in (("add", name), ("commit", "-q", "-m", version)):
            subprocess.run(("git", *words), check=True)


def write_everything(folder: Path) -> None:
    """Run each command in a folder."""
    os.chdir(folder)
    for number, words in enumerate(commands()):
        said = io.StringIO()
        with redirect_stdout(said), redirect_stderr(said):
            status = main(list(words))
        text = f"{words}\n{said.getvalue()}exit status {status}\n"
        Path(f"{number:02}.said").write_text(text, "utf-8")


if __name__ == "__main__":
    write_everything(Path(sys.argv[1]))
