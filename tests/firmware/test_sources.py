"""The emitted C is clean under two compilers, and runs clean under their sanitizers."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.model import Press
from tests.amounts import in_turn
from tests.firmware.build_model import keyboard
from tests.firmware.host_build import (
    COMPILERS,
    SANITIZERS,
    compile_c,
    host_view,
    sources,
    write_tree,
)
from tests.firmware.pads import (
    every_media_key,
    huge_board,
    loader_pad,
    media_pad,
    small_pad,
    square_board,
)

SOAK = Path(__file__).with_name("soak.c")


@pytest.mark.few(2)
@pytest.mark.parametrize(
    ("board", "compiler"),
    in_turn([small_pad, huge_board, loader_pad, media_pad, every_media_key], COMPILERS),
)
def test_a_long_random_run_is_clean_under_the_sanitizers(board, compiler, tmp_path) -> None:
    tree = write_tree(firmware_tree(host_view(board())), tmp_path)
    files = [*sources(tree, with_usb=False), SOAK]
    soak = compile_c(tree, tmp_path / "soak", files, compiler, *SANITIZERS)
    done = subprocess.run([soak, "7", "30000"], capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (0, "30000 turns, 0 faults\n"), done.stderr


@pytest.mark.parametrize(("board", "compiler"), in_turn([square_board, every_media_key], COMPILERS))
def test_the_whole_tree_with_usb_links_without_a_warning(board, compiler, tmp_path) -> None:
    tree = write_tree(firmware_tree(host_view(board())), tmp_path)
    files = [*sources(tree, with_usb=True), tree / "main.c"]
    assert compile_c(tree, tmp_path / "whole", files, compiler).is_file()


@pytest.mark.parametrize("compiler", COMPILERS)
def test_a_warning_stops_the_build(compiler, tmp_path) -> None:
    tree = write_tree(firmware_tree(host_view(small_pad())), tmp_path)
    planted = tree / "engine" / "planted.c"
    planted.write_text("unsigned char f(int x);\nunsigned char f(int x) { return x; }\n")
    with pytest.raises(AssertionError, match="conversion"):
        compile_c(tree, tmp_path / "soak", [planted, SOAK], compiler)


def test_tables_of_another_keyboard_do_not_compile(tmp_path) -> None:
    tree = write_tree(firmware_tree(host_view(square_board())), tmp_path)
    other = firmware_tree(host_view(small_pad()))
    (tree / "tables" / "sizes.h").write_bytes(other["tables/sizes.h"])
    with pytest.raises(AssertionError, match=r"sizes\.h is of another keyboard"):
        compile_c(tree, tmp_path / "soak", [*sources(tree, with_usb=False), SOAK])


NASTY = '*/ #error "out" /* ??/ \\ \x1b é 鍵 🎹 %s {{ view }}'


@pytest.mark.parametrize("compiler", COMPILERS)
def test_no_name_can_break_out_of_a_comment(compiler, tmp_path) -> None:
    rows = [[NASTY, "*/", "/*"], ["/", "*", "\\"]]
    base = {name: Press(4 + place) for place, name in enumerate(rows[0] + rows[1])}
    nasty = keyboard(rows, {"base": base, "*/x": {}}, name=NASTY, maker=NASTY)
    tree = write_tree(firmware_tree(host_view(nasty)), tmp_path)
    files = [*sources(tree, with_usb=False), SOAK]
    assert compile_c(tree, tmp_path / "soak", files, compiler).is_file()
    for path in tree.rglob("tables/*"):
        assert path.read_bytes().isascii(), path


def test_the_same_keyboard_gives_the_same_bytes() -> None:
    assert firmware_tree(host_view(huge_board())) == firmware_tree(host_view(huge_board()))
