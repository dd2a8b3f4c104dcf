"""A folder is written whole or not at all."""

import json
from pathlib import Path

import pytest

from matrixgen.emit import output_folder
from matrixgen.emit.output_folder import write_folder
from tests.hostile.conftest import no_hang
from tests.hostile.test_nothing_hangs import put_folder, put_pipe, put_sparse

FILES = ("old.txt", "new.txt", "firmware/main.c")
MANIFEST = json.dumps({"tool": {"name": "matrixgen"}, "files": dict.fromkeys(FILES, "")}).encode()


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_a_new_folder_holds_just_the_files(tmp_path: Path) -> None:
    files = {"manifest.json": MANIFEST, "firmware/engine/scan.c": b"int x;\n"}
    write_folder(tmp_path / "a" / "b", files)
    assert tree(tmp_path / "a" / "b") == files
    assert [path.name for path in (tmp_path / "a").iterdir()] == ["b"]


def test_a_folder_of_ours_is_replaced_and_old_files_go(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, {"manifest.json": MANIFEST, "old.txt": b"old"})
    write_folder(out, {"manifest.json": MANIFEST, "new.txt": b"new"})
    assert tree(out) == {"manifest.json": MANIFEST, "new.txt": b"new"}


@pytest.mark.parametrize("put", [put_sparse, put_pipe, put_folder])
def test_what_is_no_manifest_of_ours_is_neither_read_to_its_end_nor_waited_for(put, tmp_path):
    put(tmp_path / "manifest.json")
    with no_hang():
        reason = write_folder(tmp_path, {"manifest.json": MANIFEST})
    assert reason and "holds files that this program did not write" in reason


def test_a_manifest_has_a_bound(tmp_path: Path) -> None:
    (tmp_path / "manifest.json").write_bytes(MANIFEST.ljust(output_folder.MOST_BYTES))
    assert output_folder.not_ours(tmp_path) is None
    (tmp_path / "manifest.json").write_bytes(MANIFEST.ljust(output_folder.MOST_BYTES + 1))
    assert output_folder.not_ours(tmp_path)


def test_an_empty_folder_is_used(tmp_path: Path) -> None:
    write_folder(tmp_path, {"manifest.json": MANIFEST})
    assert tree(tmp_path) == {"manifest.json": MANIFEST}


@pytest.mark.parametrize("own", ["notes.txt", "firmware/photo.jpg", ".git/HEAD"])
def test_a_folder_of_ours_with_a_file_of_the_user_s_is_left_alone(tmp_path: Path, own: str) -> None:
    out = tmp_path / "out"
    write_folder(out, {"manifest.json": MANIFEST, "old.txt": b"old"})
    (out / own).parent.mkdir(exist_ok=True)
    (out / own).write_bytes(b"mine")
    before = tree(out)
    assert f"holds `{own}`, which this program did not write" in (
        write_folder(out, {"manifest.json": MANIFEST}) or ""
    )
    assert tree(out) == before


@pytest.mark.parametrize("made", ["firmware/firmware.elf", "firmware/firmware.hex", ".DS_Store"])
def test_what_make_or_a_file_manager_left_does_not_stand_in_the_way(
    tmp_path: Path, made: str
) -> None:
    out = tmp_path / "out"
    write_folder(out, {"manifest.json": MANIFEST, "firmware/main.c": b"old"})
    (out / made).write_bytes(b"made")
    write_folder(out, {"manifest.json": MANIFEST})
    assert tree(out) == {"manifest.json": MANIFEST}


OTHERS = [
    *(b"", b"{}", b"[]", b"null", b'{"tool": {"name": "other"}}'),
    *(b'{"tool": {"name": "matrixgen"}}', b'{"tool": {"name": "matrixgen"}, "files": 1}'),
]


@pytest.mark.parametrize("content", OTHERS)
def test_a_folder_of_somebody_elses_is_left_alone(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "manifest.json").write_bytes(content)
    (tmp_path / "precious.txt").write_bytes(b"mine")
    before = tree(tmp_path)
    assert "did not write" in (write_folder(tmp_path, {"manifest.json": MANIFEST}) or "")
    assert tree(tmp_path) == before


def test_a_file_in_the_way_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"mine")
    assert "is not a folder" in (write_folder(tmp_path / "out", {"manifest.json": MANIFEST}) or "")
    assert (tmp_path / "out").read_bytes() == b"mine"


@pytest.mark.parametrize(
    ("step", "name", "error", "told"),
    [
        ("write_bytes", "z.txt", OSError(28, "No space left on device"), "no space left"),
        ("rename", "new", OSError(13, "Permission denied"), "permission denied"),
    ],
)
def test_a_step_that_fails_leaves_the_old_folder_or_puts_it_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, name: str, error: OSError, told: str
) -> None:
    out = tmp_path / "out"
    write_folder(out, {"manifest.json": MANIFEST, "old.txt": b"old"})
    before = tree(out)
    real = getattr(Path, step)

    def fail(self: Path, given: object) -> object:
        if self.name == name:
            raise error
        return real(self, given)

    monkeypatch.setattr(Path, step, fail)
    assert told in (write_folder(out, {"manifest.json": MANIFEST, "z.txt": b"new"}) or "")
    assert tree(out) == before
    assert [path.name for path in tmp_path.iterdir()] == ["out"]
