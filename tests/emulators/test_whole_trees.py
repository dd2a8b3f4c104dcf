"""The sources as they lie beside has.h are firmware too, as the mutants of the ports need them."""

import pytest

from matrixgen.emit.bench_tree import whole_bench_tree
from matrixgen.families import FAMILIES
from matrixgen.toolchain import Image, compile_tree, find_compiler
from tests.emulators import bench_on_chip
from tests.emulators.images import whole_tree_of
from tests.emulators.keyboards import profile, square

TREES = {
    "keyboard": lambda chip: whole_tree_of(square(2, controller=chip)),
    "bench": lambda chip: whole_bench_tree(bench_on_chip.view_of(chip)),
}


@pytest.mark.few(2)
@pytest.mark.parametrize("chip", ["atmega32u4", "rp2040"])
@pytest.mark.parametrize("kind", TREES)
def test_every_file_knows_the_conditions_that_it_asks_for(kind, chip):
    made = compile_tree(TREES[kind](chip), chip, find_compiler("gcc", FAMILIES[profile(chip).port]))
    assert isinstance(made, Image), made.output
