"""The recipes of DEVELOPERS.md: followed whole they pass, and no step can be left out unseen."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.recipes.recipes import RECIPES, ROOT, Recipe, copy_of_checkout, plant, undo
from tests.recipes.touched import files_of_a_family, files_of_a_statement

GUIDE = " ".join((ROOT / "DEVELOPERS.md").read_text("utf-8").split())


ALONE = (
    *("-p", "no:xdist", "-p", "no:hypothesispytest", "--noconftest"),
    *("-o", "addopts=", "-W", "ignore::pytest.PytestUnknownMarkWarning"),
)
"""Guards need none of what the whole suite shares, which takes longer to load than they take."""


def complaints(recipe: Recipe, root: Path) -> str:
    """What the recipe's guards print in a checkout, in a process of its own; "" if they pass."""
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", *ALONE]
    done = subprocess.run(
        [*command, *recipe.guards], cwd=root, capture_output=True, text=True, check=False
    )
    assert done.returncode in (0, 1, 2, 4), done.stdout + done.stderr
    return done.stdout + done.stderr if done.returncode else ""


@pytest.mark.few(2)
@pytest.mark.parametrize("kind", RECIPES)
def test_a_recipe_works_and_each_step_that_is_left_out_is_missed(kind: str, tmp_path: Path) -> None:
    recipe, root = RECIPES[kind], copy_of_checkout(tmp_path)
    plant(recipe, root)
    assert not complaints(recipe, root)
    for step in recipe.steps:
        undo(recipe, root)
        plant(recipe, root, without=step)
        assert complaints(recipe, root), f"nothing misses {step}"


@pytest.mark.parametrize("kind", RECIPES)
def test_the_guide_says_how_many_files_a_recipe_touches(kind: str) -> None:
    recipe = RECIPES[kind]
    said = re.search(rf"\| a {kind} \| (\d+) \| (\d+) \|", GUIDE)
    assert said and (int(said[1]), int(said[2])) == (len(recipe.new), len(recipe.changed))


@pytest.mark.parametrize(
    ("kind", "touched"),
    [("statement", files_of_a_statement), ("chip family", files_of_a_family)],
)
def test_the_guide_says_how_many_files_another_one_of_a_kind_touches(kind, touched) -> None:
    new, changed = touched()
    said = re.search(rf"\| a {kind} \| (\d+) \| (\d+) \|", GUIDE)
    assert said and (int(said[1]), int(said[2])) == (len(new), len(changed)), (new, changed)
