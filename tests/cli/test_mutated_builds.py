"""Whatever the file, a build leaves a whole folder or none, and says why in findings.

Hundreds of files: the examples with words swapped, doubled, dropped or misspelt. `--sources`, since
what is tried is the program's own way from text to folder; 1 in 100 is also compiled.
"""

from __future__ import annotations

import contextlib
import hashlib
import io
import json
import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from matrixgen.cli.main import main
from tests.amounts import amount
from tests.examples.shipped import FOLDER, NAMES

FILES = amount("MATRIXGEN_MUTATED_BUILDS", suite=80, long=4000)
SEEDS = 8


def swap_words(chance: random.Random, words: list[str]) -> None:
    first, second = (chance.randrange(len(words)) for _ in range(2))
    words[first], words[second] = words[second], words[first]


def double_word(chance: random.Random, words: list[str]) -> None:
    place = chance.randrange(len(words))
    words.insert(place, words[chance.randrange(len(words))])


def drop_word(chance: random.Random, words: list[str]) -> None:
    del words[chance.randrange(len(words))]


def misspell(chance: random.Random, words: list[str]) -> None:
    place = chance.randrange(len(words))
    word = words[place]
    cut = chance.randrange(len(word) + 1)
    words[place] = word[:cut] + chance.choice("aZ09.:,=+~#\"'`-\\ü\t") + word[cut + 1 :]


MUTATIONS: list[Callable[[random.Random, list[str]], None]] = [
    swap_words,
    double_word,
    drop_word,
    misspell,
]


def mutated(chance: random.Random) -> str:
    name = chance.choice(NAMES)
    text = (FOLDER / name / f"{name}.keys").read_text("utf-8")
    words = re.split(r"(\s+)", text)
    for _ in range(chance.choice((1, 1, 1, 2, 5))):
        chance.choice(MUTATIONS)(chance, words)
    return "".join(words)


def check_whole(out: Path) -> None:
    told = json.loads((out / "manifest.json").read_text("utf-8"))
    files = {
        path.relative_to(out).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in out.rglob("*")
        if path.is_file() and path.name != "manifest.json"
    }
    assert files == told["files"]


@pytest.mark.parametrize("seed", range(SEEDS))
def test_a_mutated_file_leaves_a_whole_folder_or_none(seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)
    path, out = tmp_path / "mutated.keys", tmp_path / "out"
    statuses = set()
    for number in range(FILES // SEEDS):
        path.write_text(mutated(chance), "utf-8")
        said = io.StringIO()
        how = ("--compiler", "gcc") if number % 100 == 0 else ("--sources",)
        with contextlib.redirect_stderr(said), contextlib.redirect_stdout(said):
            status = main(["build", str(path), "-o", str(out), "--all", *how])
        statuses.add(status)
        assert sorted(p.name for p in tmp_path.iterdir()) == sorted(
            ["mutated.keys"] + (["out"] if status == 0 else [])
        )
        if status == 0:
            for folder in out.iterdir():
                check_whole(folder)
            shutil.rmtree(out)
        else:
            assert re.search(r"error\[[a-z0-9-]+\]: ", said.getvalue())
    assert statuses == {0, 1}, "some files were sound and some were not"
