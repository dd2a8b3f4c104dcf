"""What the tests compile file by file is what the program compiles at once."""

from __future__ import annotations

import pytest

from matrixgen.toolchain import compile_tree, read_image
from tests.emulators.images import compiled_by_parts, tree_of
from tests.emulators.keyboards import square
from tests.toolchain.trees import compiler, tree


@pytest.mark.parametrize("chip", ["atmega32u4", "at90usb1286", "rp2040"])
def test_an_image_made_of_parts_is_the_program_s_own(chip: str) -> None:
    """The second keyboard finds the objects of the first, but for its own tables."""
    for mounted in (square(2, controller=chip), square(2, layers=2, controller=chip)):
        files, by = tree_of(mounted), compiler("gcc", chip)
        elf = compiled_by_parts(files, chip, by)
        assert elf is not None
        assert read_image(elf, by.family) == compile_tree(files, chip, by)


def test_an_object_is_made_anew_where_a_file_that_it_includes_is_another() -> None:
    chip, by = "atmega32u4", compiler("gcc")
    files = tree(chip)
    changed = next(name for name in files if name.endswith("tables/sizes.h"))
    other = files | {changed: files[changed] + b"#error another one\n"}
    assert compiled_by_parts(files, chip, by) is not None
    assert compiled_by_parts(other, chip, by) is None


def test_what_does_not_compile_is_left_to_the_program() -> None:
    broken = {**tree("atmega32u4"), "main.c": b"int main(void) { return nonsense; }\n"}
    assert compiled_by_parts(broken, "atmega32u4", compiler("gcc")) is None
