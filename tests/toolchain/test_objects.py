"""What the tests compile file by file is what the program compiles at once."""

from __future__ import annotations

import pytest

from matrixgen.families import CompilerKind
from matrixgen.toolchain import compile_tree, read_image
from tests.emulators.images import compiled_by_parts, tree_of
from tests.emulators.keyboards import square
from tests.preprocessed import counting
from tests.toolchain.trees import COMPILERS, compiler, tree

BUILDS = [
    ("atmega32u4", "gcc"),
    ("at90usb1286", "gcc"),
    ("rp2040", "gcc"),
    ("atmega32u4", "clang"),
    ("rp2040", "clang"),
]


@pytest.mark.few(2)
@pytest.mark.parametrize(("chip", "kind"), BUILDS)
def test_an_image_made_of_parts_is_the_program_s_own(chip: str, kind: CompilerKind) -> None:
    """The second keyboard finds objects of the first, which has other sizes and tables."""
    by = compiler(kind, chip)
    assert compiled_by_parts(tree_of(square(2, controller=chip)), chip, by) is not None
    files = tree_of(square(3, layers=2, controller=chip))
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


SIZES = b"#ifndef SIZES\n#define SIZES\n#define KEYS %s\n#define LAYERS %s /* %s */\n#endif\n"


def object_key(sizes: bytes, more: bytes = b"") -> list[tuple[str, str]]:
    source = b'#include "sizes.h"\nint more(void) { return ALL_KEYS; }\n' + more
    header = b"#define ALL_KEYS (2 * KEYS)\n" + sizes
    return counting({"a.c": source, "tables/sizes.h": header, "b.h": b"int b;\n"}, "a.c")


@pytest.mark.parametrize(
    ("line", "counts"),
    [
        (b"typedef uint8_t named;", True),
        (b"typedef uint8_t other;", False),
        (b"extern FLASH const uint8_t named[KEYS];", True),
        (b"extern FLASH const uint8_t other[KEYS];", False),
        (b"extern int named, other;", True),
        (b"int other;", True),
    ],
)
def test_a_type_or_variable_of_elsewhere_counts_where_it_is_named(
    line: bytes, counts: bool
) -> None:
    uses = b"int two = sizeof(named);\n"
    assert (object_key(line, uses) != object_key(b"", uses)) == counts


def test_an_object_depends_on_the_macros_that_it_names_and_on_no_comment() -> None:
    before = object_key(SIZES % (b"4", b"1", b"one"))
    assert object_key(SIZES % (b"4", b"2", b"two")) == before
    assert object_key(SIZES % (b"5", b"1", b"one")) != before
    assert not any(name == "b.h" or "LAYERS" in line for name, line in before)
    assert any("KEYS 4" in line for _, line in before)


def test_what_looks_like_a_comment_in_a_string_is_none() -> None:
    said = b'const char *said = "//%s"; /* %s */\n'
    before = object_key(b"", said % (b"one", b"one"))
    assert object_key(b"", said % (b"one", b"two")) == before
    assert object_key(b"", said % (b"two", b"one")) != before


def test_a_file_that_pastes_words_may_name_any_macro() -> None:
    pastes = b"#define SIZE(name) LAY##name\nint layers = SIZE(ERS);\n"
    one, two = (object_key(SIZES % (b"4", number, b""), pastes) for number in (b"1", b"2"))
    assert one != two


@pytest.mark.parametrize("kind", COMPILERS)
def test_what_does_not_compile_is_left_to_the_program(kind: CompilerKind) -> None:
    broken = {**tree("atmega32u4"), "main.c": b"int main(void) { return nonsense; }\n"}
    assert compiled_by_parts(broken, "atmega32u4", compiler(kind)) is None
