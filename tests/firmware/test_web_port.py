"""The port for a page: clean under both compilers, for any keyboard, and small."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from matrixgen.emit.web_tree import web_tree, web_view
from matrixgen.model import Keyboard
from matrixgen.toolchain.web_engine import INCLUDED, web_engine
from tests.browser.pads import draft
from tests.firmware.host_build import COMPILERS, compile_c, write_tree
from tests.firmware.pads import huge_board, timed_pad, together_pad


@pytest.mark.few(2)
@pytest.mark.parametrize("compiler", COMPILERS)
@pytest.mark.parametrize("make", [huge_board, timed_pad, together_pad])
def test_it_is_clean_under_both_compilers(
    make: Callable[[], Keyboard], compiler: str, tmp_path: Path
) -> None:
    tree = write_tree(web_tree(web_view(make(), "pad.keys")), tmp_path)
    files = [path for path in sorted(tree.rglob("*.c")) if _place(path, tree) not in INCLUDED]
    flags = ("-shared", "-fPIC", "-ffreestanding", "-nostdlib")
    assert compile_c(tree, tmp_path / "engine.so", files, compiler, *flags).is_file()


def _place(path: Path, tree: Path) -> str:
    return path.relative_to(tree).as_posix()


@pytest.mark.parametrize("make", [huge_board, draft])
def test_any_keyboard_with_a_matrix_makes_a_module(make: Callable[[], Keyboard]) -> None:
    engine = web_engine(web_tree(web_view(make(), "pad.keys")))
    assert isinstance(engine, bytes), engine
    assert len(engine) < 32_000


def test_a_page_s_tree_has_no_usb_no_loop_and_no_pins() -> None:
    tree = web_tree(web_view(timed_pad(), "pad.keys"))
    assert {path.split("/")[0] for path in tree} == {"engine", "port", "tables"}
    lacking = {"engine/loop.c", "tables/identity.h", "tables/table_identity.c", "port/pins.h"}
    assert not lacking & set(tree)
    assert set(INCLUDED) < set(tree)
