"""Templates that were compiled in an earlier run: the same text, whatever became of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from matrixgen.emit.sheet.pictures import markup

TEMPLATE = "sheet/findings.html.j2"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "matrixgen" / "templates" / "markup"


def rendered() -> str:
    """Return a text by an environment that has seen no template yet."""
    markup.cache_clear()
    return (
        markup()
        .get_template(TEMPLATE)
        .render(sheet={"findings": (), "missing": ("a name",), "has_errors": False, "unlisted": 0})
    )


def test_what_is_kept_is_taken_and_gives_the_same(folder, monkeypatch):
    first = rendered()
    assert "a name" in first
    (kept,) = folder.iterdir()
    monkeypatch.setattr("jinja2.Environment._parse", None)  # nothing may be compiled any more
    assert rendered() == first
    assert list(folder.iterdir()) == [kept]


@pytest.mark.parametrize("content", [b"", b"nonsense", bytes(100)])
def test_what_is_damaged_is_made_anew(folder, content):
    first = rendered()
    (kept,) = folder.iterdir()
    whole = kept.read_bytes()
    kept.write_bytes(content + whole[len(content) :] if content else b"")
    assert rendered() == first
    assert kept.read_bytes() == whole


def test_no_folder_is_needed(folder):
    folder.parent.parent.parent.joinpath("matrixgen").write_text("a file in the way")
    assert "a name" in rendered()
