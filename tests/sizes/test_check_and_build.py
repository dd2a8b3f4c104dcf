"""What `check` finds nothing wrong with, `build` builds: files drawn to every limit.

`MATRIXGEN_BUILT=100` compiles as many by each compiler; the suite compiles a few, and writes the
sources of more.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.jobs.build import build_mounted
from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.jobs.foretell import forecasts
from tests.amounts import amount
from tests.examples.shipped import COMPILERS
from tests.generator.files import draft
from tests.sizes.keyboards import random_text

BUILT = amount("MATRIXGEN_BUILT", suite=1, long=50)
WRITTEN = max(12, BUILT)
BOARDS = [name for name in builtin_names() if builtin_profile(name).port]


def files(seed: int) -> tuple[str, str]:
    """One drawn from the grammar, for any controllers, and one of many layers and behaviours."""
    chance = random.Random(f"built {seed}")
    drawn = draft(1000 + seed, sound=True, most_keys=chance.choice((12, 64, 300))).text
    return drawn, random_text(chance, builtin_profile(chance.choice(BOARDS)))


def clean(text: str) -> Examined | None:
    """The file as `check --finished` sees it, if it finds no error there."""
    examined = examine_text("drawn.keys", text, Path()).as_built_for_all()
    return None if examined.errors else examined


def build(examined: Examined, compiler: str) -> None:
    assert examined.design is not None and examined.mounted
    for mounted in examined.mounted:
        built = build_mounted(mounted, examined.design.source, "drawn", compiler, with_sheet=False)
        near = any(found.slug == "image-near-limit" for found in examined.findings)
        assert near or not built.findings, examined.text
        assert near or built.files


def test_files_that_check_clean_are_written_as_firmware():
    seen = 0
    for seed in range(WRITTEN):
        for text in files(seed):
            if examined := clean(text):
                seen += 1
                build(examined, "none")
    assert seen > WRITTEN / 2, "hardly a drawn file was sound"


@pytest.mark.parametrize("kind", COMPILERS)
def test_files_that_check_clean_compile_and_have_room(kind):
    """Warnings are errors of the compiler, so that a number too large for its type fails here.

    `check` foretells for the usual compiler; the other's larger images are asked of it alone.
    """
    seen = 0
    for seed in range(1000):
        for text in files(seed):
            examined = clean(text)
            if examined and has_room(examined, kind):
                seen += 1
                build(examined, kind)
        if seen >= BUILT:
            return


def has_room(examined: Examined, kind: str) -> bool:
    """Whether an image by this compiler is foretold to have room."""
    return all(
        need.has_room
        for mounted in examined.mounted
        for one in forecasts(mounted, (kind,))
        for need in one.needs
    )
