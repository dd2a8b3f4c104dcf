"""What is read has a bound: no pipe is waited for, and no device is read to its end."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from matrixgen.boards.own_json import MOST_BYTES
from matrixgen.load.drives import INFO, drive_at
from matrixgen.source.limits import LIMITS
from tests.boards.own_files import good
from tests.hostile.conftest import no_hang
from tests.patience import HANGS_S
from tests.texts import GOOD

MEMORY_BYTES = 1_000_000_000
SPARSE_BYTES = 50_000_000_000


def put_pipe(path: Path) -> None:
    os.mkfifo(path)


def put_folder(path: Path) -> None:
    path.mkdir()


def put_sparse(path: Path) -> None:
    """A file that takes no room, and would take all memory."""
    with path.open("wb") as file:
        file.truncate(SPARSE_BYTES)


def put_large(path: Path) -> None:
    path.write_text(json.dumps(good()).ljust(MOST_BYTES + 1))


def put_link_to_pipe(path: Path) -> None:
    os.mkfifo(path.with_name("pipe"))
    path.symlink_to("pipe")


def put_link_to_itself(path: Path) -> None:
    path.symlink_to(path.name)


NOT_FILES = [
    (put_pipe, "it is not a regular file"),
    (put_link_to_pipe, "it is not a regular file"),
    (put_folder, "it is a folder"),
    (put_sparse, f"it has more than {MOST_BYTES:,} bytes"),
    (put_large, f"it has more than {MOST_BYTES:,} bytes"),
    (put_link_to_itself, "symbolic links"),
]


@pytest.mark.parametrize("command", ["check", "sheet"])
@pytest.mark.parametrize("statement", ["controller", "diodes"])
@pytest.mark.parametrize(("put", "reason"), NOT_FILES)
def test_what_a_file_names_is_a_regular_file_of_bounded_size(
    stranger, put, reason, statement, command
):
    put(stranger.folder / "own.json")
    with no_hang():
        ran = stranger(command, stranger.keyboard(**{statement: '"own.json"'}))
    if command == "check":
        assert ran.status == 1
        assert "`own.json` cannot be read: " in ran.out
        assert reason in ran.out


@pytest.mark.parametrize("path", ["/dev/zero", "/dev/stdin", "/dev/tty", "/proc/self/fd/0"])
def test_no_device_is_read_for_a_file(stranger, path):
    with no_hang():
        ran = stranger("check", stranger.keyboard(controller=f'"{path}"'))
    assert ran.status == 1 and "is outside the repository" in ran.out


def test_the_largest_file_is_read(stranger):
    text = json.dumps(good())
    stranger.write("own.json", text.ljust(MOST_BYTES))
    keyboard = GOOD.replace("atmega32u4", '"own.json"').replace("PD0", "PD1")
    assert stranger("check", stranger.write("pad.keys", keyboard)).status == 0


def limited(*words: str, stdin: int | None = None) -> subprocess.CompletedProcess[str]:
    """Run the program with little memory."""
    most = (MEMORY_BYTES, MEMORY_BYTES)
    return subprocess.run(
        [sys.executable, "-m", "matrixgen", *words],
        stdin=stdin,
        capture_output=True,
        text=True,
        timeout=HANGS_S,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, most),
    )


@pytest.mark.parametrize("command", ["check", "fmt", "facts", "show"])
def test_a_device_without_an_end_is_an_argument_like_any_that_is_too_large(stranger, command):
    ran = limited(command, "/dev/zero")
    assert f"`/dev/zero` has more than {LIMITS.file_bytes} bytes" in ran.stdout + ran.stderr
    assert ran.returncode in (1, 2)


@pytest.mark.parametrize("command", ["check", "fmt"])
def test_standard_input_has_the_same_bound(stranger, command):
    with Path("/dev/zero").open("rb") as zeros:
        ran = limited(command, "-", stdin=zeros.fileno())
    assert f"`<stdin>` has more than {LIMITS.file_bytes} bytes" in ran.stdout + ran.stderr
    assert ran.returncode in (1, 2)


@pytest.mark.parametrize("words", [("boards", "{}"), ("facts", "{}", "--below")])
def test_other_arguments_have_a_bound_too(stranger, words):
    put_sparse(stranger.folder / "own.json")
    ran = limited(*(word.format(stranger.folder / "own.json") for word in words))
    assert "more than 1,000,000 bytes" in ran.stdout + ran.stderr


def test_an_image_and_its_manifest_have_a_bound(stranger):
    put_sparse(stranger.folder / "pad.hex")
    ran = limited("load", str(stranger.folder / "pad.hex"), "--controller", "atmega32u4")
    assert "cannot be read: it has more than" in ran.stderr
    stranger.write("small.hex", b":00000001FF\n")
    put_pipe(stranger.folder / "manifest.json")
    with no_hang():
        assert "it is not known for which controller" in stranger("load", "small.hex").err


def test_versions_to_merge_have_a_bound(stranger):
    put_sparse(stranger.folder / "base")
    stranger.write("ours", GOOD)
    paths = [str(stranger.folder / name) for name in ("base", "ours", "ours")]
    ran = limited("merge", *paths)
    assert ran.returncode == 2 and "it has more than" in ran.stderr


def test_a_pipe_may_be_an_argument(stranger):
    put_pipe(stranger.folder / "pad.keys")
    writer = threading.Thread(target=(stranger.folder / "pad.keys").write_text, args=(GOOD,))
    writer.start()
    with no_hang():
        ran = stranger("check", "pad.keys")
    writer.join()
    assert ran.status == 0, ran.out


def test_what_a_shell_hands_over_names_files_from_the_current_folder(stranger):
    stranger.write("own.json", json.dumps(good()))
    out, into = os.pipe()
    os.write(into, GOOD.replace("atmega32u4", '"own.json"').replace("PD0", "PD1").encode())
    os.close(into)
    ran = stranger("check", f"/dev/fd/{out}")
    os.close(out)
    assert ran.status == 0, ran.out


@pytest.mark.parametrize("name", ["/dev/fd/{}", "/proc/self/fd/{}"])
@pytest.mark.parametrize("text", [GOOD, GOOD.replace("column c1 on PB1", "column c1 on PB0")])
def test_what_a_shell_hands_over_is_read_and_shown(stranger, name, text):
    out, into = os.pipe()
    os.write(into, text.encode())
    os.close(into)
    with no_hang():
        ran = stranger("check", name.format(out))
    os.close(out)
    assert ran.status == (text != GOOD), ran.out
    assert ("error[pin-used-twice]" in ran.out) == (text != GOOD)


def test_a_page_is_never_written_over_a_pipe(stranger):
    put_pipe(stranger.folder / "pad.html")
    with no_hang():
        ran = stranger("sheet", stranger.keyboard())
    assert ran.status == 2 and "`pad.html` is not a regular file" in ran.err


def test_a_drive_with_a_pipe_on_it_is_none_of_a_boot_loader(tmp_path):
    put_pipe(tmp_path / INFO)
    with no_hang():
        assert drive_at(tmp_path) is None


def test_a_profile_with_many_mistakes_tells_the_first_of_them(stranger):
    for pins in ([1] * 10_000, [{"name": "PB0", "use": "free"}] * 10_000):
        stranger.write("own.json", json.dumps(good() | {"pins": pins}))
        with no_hang():
            ran = stranger("check", stranger.keyboard(controller='"own.json"'))
        assert ran.status == 1
        assert ran.out.count("error[bad-profile]") == 100
