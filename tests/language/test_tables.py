"""The grammar's tables on disk: kept, found again, and never trusted."""

import os
import subprocess
import sys

import pytest

from matrixgen.source import read_design, tables
from matrixgen.source.lexer import keys_lexer
from tests.language.whole import WHOLE


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(tables, "cache_folder", lambda: tmp_path / "cache")
    keys_lexer.cache_clear()
    yield tmp_path / "cache"
    keys_lexer.cache_clear()


def read_afresh():
    keys_lexer.cache_clear()
    design, found = read_design("heron.keys", WHOLE)
    assert found == []
    return design


def test_tables_are_kept_in_one_file_and_read_the_same_language(folder):
    first = read_afresh()
    (kept,) = folder.iterdir()
    before = kept.stat().st_mtime_ns
    assert read_afresh() == first
    assert [kept] == list(folder.iterdir()) and kept.stat().st_mtime_ns == before


@pytest.mark.parametrize("damage", [b"", b"x", b"\0" * 40, None], ids=["empty", "x", "nil", "half"])
def test_damaged_tables_are_made_anew(folder, damage):
    first = read_afresh()
    (kept,) = folder.iterdir()
    good = kept.read_bytes()
    kept.write_bytes(good[: len(good) // 2] if damage is None else damage)
    assert read_afresh() == first
    assert len(kept.read_bytes()) == len(good)


def test_tables_of_a_right_hash_and_a_wrong_shape_are_made_anew(folder):
    first = read_afresh()
    (kept,) = folder.iterdir()
    tables.keep(tables.marshal.dumps(({"data": 1}, [2])), kept)
    assert read_afresh() == first


def test_a_folder_that_cannot_be_made_is_no_mistake(folder):
    folder.write_bytes(b"a file stands where the folder should be")
    read_afresh()
    assert folder.read_bytes().startswith(b"a file")


def test_nothing_is_left_of_a_write_that_fails(folder, monkeypatch):
    monkeypatch.setattr(os, "fdopen", lambda *_: (_ for _ in ()).throw(OSError("no room")))
    read_afresh()
    assert list(folder.iterdir()) == []


def counted(monkeypatch):
    """How often Lark is asked, as a list that grows."""
    asked = []
    made = tables._made
    monkeypatch.setattr(tables, "_made", lambda *given: asked.append(1) or made(*given))
    return asked


def test_lark_is_asked_once(folder, monkeypatch):
    asked = counted(monkeypatch)
    read_afresh()
    read_afresh()
    assert len(asked) == 1


def test_a_process_that_finds_tables_does_not_import_lark(folder):
    read_afresh()
    code = (
        "import sys, matrixgen.source.tables as t, pathlib;"
        f"t.cache_folder = lambda: pathlib.Path({str(folder)!r});"
        "from matrixgen.source import read_design;"
        f"assert read_design('x.keys', {WHOLE!r})[1] == [];"
        "sys.exit('lark' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code]).returncode == 0


def test_another_grammar_has_other_tables(folder, tmp_path, monkeypatch):
    asked = counted(monkeypatch)
    read_afresh()
    grammar = (tables.resource("grammar") / "keys.lark").read_bytes()
    (tmp_path / "keys.lark").write_bytes(grammar.replace(b'"maker"', b'"builder"'))
    monkeypatch.setattr(tables, "resource", lambda _: tmp_path)
    keys_lexer.cache_clear()
    assert read_design("pad.keys", 'keyboard "A"\n  builder "B"\nplate\n  line A\n')[1] == []
    assert len(asked) == 2 and len(list(folder.iterdir())) == 2


def test_another_lark_makes_its_own_tables(folder, tmp_path, monkeypatch):
    asked = counted(monkeypatch)
    read_afresh()
    (tmp_path / "lark").mkdir()
    (tmp_path / "lark" / "__init__.py").write_text('__version__ = "1.3.99"\n')
    monkeypatch.syspath_prepend(tmp_path)
    read_afresh()
    assert len(asked) == 2


def test_tables_of_something_else_under_the_same_name_are_made_anew(folder, monkeypatch):
    asked = counted(monkeypatch)
    monkeypatch.setattr(tables, "crc32", lambda _: 0)
    first = read_afresh()
    monkeypatch.setattr(tables, "_makers", lambda: [b"another Python"])
    assert read_afresh() == first
    assert len(asked) == 2 and len(list(folder.iterdir())) == 1
