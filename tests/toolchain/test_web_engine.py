"""A keyboard's engine for a page: what the module is, and the cache that it is kept in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from matrixgen import cache
from matrixgen.emit.web_tree import web_tree, web_view
from matrixgen.resources import resource
from matrixgen.toolchain import web_engine as made
from matrixgen.toolchain.web_engine import (
    EXPORTED_IF_THERE,
    EXPORTS,
    NO_COMPILER,
    NoEngine,
    web_engine,
)
from tests.firmware.pads import media_pad

MEMORY, FUNCTION = 2, 0
IMPORTS, EXPORT_SECTION = 2, 7
"""Numbers of the WebAssembly core specification, section 5.5."""


@pytest.fixture(scope="module")
def tree() -> dict[str, bytes]:
    return web_tree(web_view(media_pad(), "pad.keys"))


@pytest.fixture(scope="module")
def module(tree: dict[str, bytes], tmp_path_factory: pytest.TempPathFactory) -> bytes:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cache, "cache_folder", lambda: tmp_path_factory.mktemp("cache"))
        engine = web_engine(tree)
    assert isinstance(engine, bytes), engine
    return engine


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(cache, "cache_folder", lambda: tmp_path / "cache")
    return tmp_path / "cache"


def compiling(monkeypatch: pytest.MonkeyPatch, *results: bytes | NoEngine) -> list[str]:
    """Let the compiler give these results; returns the list of what it was asked."""
    asked: list[str] = []
    left = list(results)

    def compiled(tree: dict[str, bytes], command: tuple[str, ...]) -> bytes | NoEngine:
        asked.append(command[-1])
        return left.pop(0)

    monkeypatch.setattr(made, "_compiled", compiled)
    return asked


def number(data: bytes, at: int) -> tuple[int, int]:
    """Return an unsigned LEB128 number, and where it ends."""
    value = shift = 0
    while True:
        value |= (data[at] & 0x7F) << shift
        shift, at = shift + 7, at + 1
        if data[at - 1] < 0x80:
            return value, at


def sections(module: bytes) -> Iterator[tuple[int, bytes]]:
    assert module[:8] == b"\0asm\1\0\0\0"
    at = 8
    while at < len(module):
        kind = module[at]
        length, at = number(module, at + 1)
        yield kind, module[at : at + length]
        at += length


def exports(section: bytes) -> dict[str, int]:
    """Return what is exported, by name, and of which kind it is."""
    found = {}
    count, at = number(section, 0)
    for _ in range(count):
        length, at = number(section, at)
        name, kind = section[at : at + length].decode(), section[at + length]
        _, at = number(section, at + length + 1)
        found[name] = kind
    return found


def test_the_module_imports_nothing_and_exports_its_memory_and_the_functions_of_its_header(
    module: bytes,
) -> None:
    found = dict(sections(module))
    assert IMPORTS not in found
    assert exports(found[EXPORT_SECTION]) == {"memory": MEMORY, **dict.fromkeys(EXPORTS, FUNCTION)}
    header = (resource("templates") / "firmware" / "ports" / "web" / "web.h").read_text("utf-8")
    declared = re.findall(r"^\w.*?\b(web_\w+)\(", header, re.MULTILINE)
    assert sorted(declared) == sorted((*EXPORTS, *EXPORTED_IF_THERE))


def test_the_same_tree_gives_the_same_bytes_wherever_it_is_compiled(
    tree: dict[str, bytes], module: bytes
) -> None:
    assert web_engine(tree) == module


def test_an_engine_is_compiled_once_and_then_kept(
    tree: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    asked = compiling(monkeypatch, b"one", b"two")
    assert [web_engine(tree), web_engine(tree)] == [b"one", b"one"]
    assert web_engine({**tree, "engine/events.c": b"/* another */"}) == b"two"
    assert (len(asked), len(list(folder.iterdir()))) == (2, 2)


def test_another_compiler_makes_another_engine(
    tree: dict[str, bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    compiling(monkeypatch, b"one", b"two")
    assert web_engine(tree) == b"one"
    monkeypatch.setattr(made.importlib.metadata, "version", lambda package: f"{package} 99")
    assert web_engine(tree) == b"two"


@pytest.mark.parametrize("damage", [b"", b"x" * 40, b"\0" * 4000], ids=["empty", "x", "nil"])
def test_a_damaged_engine_is_made_anew(
    damage: bytes, tree: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    compiling(monkeypatch, b"one", b"again")
    web_engine(tree)
    (kept,) = folder.iterdir()
    kept.write_bytes(damage)
    assert [web_engine(tree), web_engine(tree)] == [b"again", b"again"]


def test_a_cache_that_cannot_be_written_does_no_harm(
    tree: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    folder.write_bytes(b"a file stands where the folder should be")
    compiling(monkeypatch, b"one", b"two")
    assert [web_engine(tree), web_engine(tree)] == [b"one", b"two"]
    assert folder.read_bytes().startswith(b"a file")


def test_only_the_newest_engines_are_kept(
    tree: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    monkeypatch.setattr(made, "MOST_KEPT", 3)
    compiling(monkeypatch, *(str(n).encode() for n in range(6)), b"anew")
    trees = [{**tree, "more.c": str(n).encode()} for n in range(6)]
    assert [web_engine(one) for one in trees] == [str(n).encode() for n in range(6)]
    assert len(list(folder.iterdir())) == 3
    assert web_engine(trees[5]) == b"5"
    assert web_engine(trees[0]) == b"anew"


def test_without_a_compiler_the_reason_says_how_to_get_one(
    tree: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    monkeypatch.setattr(made, "clang_command", lambda: None)
    assert web_engine(tree) is NO_COMPILER
    assert 'pip install "matrixgen[compiler]"' in NO_COMPILER.reason
    assert not folder.exists()


def test_a_compiler_that_cannot_be_started_is_a_reason(
    tree: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    monkeypatch.setattr(made, "clang_command", lambda: ("/nowhere/at-all",))
    found = web_engine(tree)
    assert isinstance(found, NoEngine)
    assert "could not be run" in found.reason
    assert not folder.exists()


def test_a_warning_stops_the_build_and_is_a_reason(tree: dict[str, bytes]) -> None:
    planted = {
        "engine/planted.c": b"unsigned char f(int x);\nunsigned char f(int x) { return x; }\n"
    }
    found = web_engine({**tree, **planted})
    assert isinstance(found, NoEngine)
    assert "an error in matrixgen" in found.reason
    assert "conversion" in found.output
