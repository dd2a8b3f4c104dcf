"""The grammar's tables on disk: kept, found again, and never trusted."""

import os

import pytest

from matrixgen.source import read_design, tables
from tests.language.whole import WHOLE


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(tables, "cache_folder", lambda: tmp_path / "cache")
    tables.keys_parser.cache_clear()
    yield tmp_path / "cache"
    tables.keys_parser.cache_clear()


def read_afresh():
    tables.keys_parser.cache_clear()
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


def test_another_grammar_has_other_tables():
    assert tables._fingerprint(b"start: A") != tables._fingerprint(b"start: B")
