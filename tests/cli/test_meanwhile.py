"""What an editor writes while a command is at work is never lost."""

from pathlib import Path

import pytest

from matrixgen.cli import fit_wiring, fixes, fmt
from matrixgen.cli.write_back import write_back, written_lines
from matrixgen.jobs.meanwhile import to_write
from matrixgen.model import SourceText
from tests.texts import GOOD

NEW = GOOD.replace("on PD0", "on PD1")


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "pad.keys"
    path.write_text(GOOD, encoding="utf-8")
    return path


def written(file, text=NEW):
    """What is written of a file that was read as `GOOD`, whatever it has now, and what is said."""
    source = SourceText(str(file), GOOD)
    write = to_write(file, source, text, "learned")
    write_back(write)
    return write, "\n".join(written_lines(write, source))


def test_a_file_that_nobody_changed_is_written(file):
    write, said = written(file)
    assert file.read_text("utf-8") == NEW
    assert said.startswith(f"written into {write.path}:\n  -  row    r0 on PD0")


def test_a_change_elsewhere_is_merged(file):
    other = GOOD.replace('"Pad"', '"Another pad"') + "\nlayer base\n  A = 1\n  B = 2\n"
    file.write_text(other, encoding="utf-8")
    _, said = written(file)
    assert file.read_text("utf-8") == other.replace("on PD0", "on PD1")
    assert "changed" in said and "it has both changes now" in said
    assert "Another" not in said


def test_a_change_in_the_same_place_is_left_and_the_new_text_written_beside(file):
    file.write_text(GOOD.replace("on PD0", "on PD2"), encoding="utf-8")
    beside = [written(file)[0].path for _ in range(2)]
    assert [path.name for path in beside] == ["pad-learned.keys", "pad-learned2.keys"]
    assert "PD2" in file.read_text("utf-8")
    assert {path.read_text("utf-8") for path in beside} == {NEW}


@pytest.mark.parametrize("now", ["keyboard", b"\xff\xfe"])
def test_what_does_not_read_by_now_is_left(file, now):
    data = now if isinstance(now, bytes) else now.encode()
    file.write_bytes(data)
    write, said = written(file)
    assert (file.read_bytes(), write.is_beside) == (data, True)
    assert f"matrixgen diff {file} {write.path}" in said


def test_a_file_that_is_gone_is_written_anew(file):
    file.unlink()
    written(file)
    assert file.read_text("utf-8") == NEW


def somebody_writes(monkeypatch, module, name, path: Path, text: str):
    """Let a file be changed right before a function of a command writes it."""
    really = getattr(module, name)

    def late(*words):
        path.write_text(text, encoding="utf-8")
        return really(*words)

    monkeypatch.setattr(module, name, late)


LATER = GOOD + "\n# written meanwhile\n"


@pytest.mark.parametrize(
    "module, words, text",
    [
        (fmt, ["fmt"], GOOD.replace("  line", "      line")),
        (fixes, ["check", "--fix"], GOOD.replace("PB0  A", "pb0  a")),
        (
            fit_wiring,
            ["fit", "--rows", "1", "--columns", "2", "--write"],
            GOOD.partition("wiring")[0],
        ),
    ],
)
def test_every_command_that_writes_a_file_leaves_what_came_meanwhile(
    program, monkeypatch, module, words, text
):
    path = program.folder / program.write("pad.keys", text)
    somebody_writes(monkeypatch, module, "rewrite_file", path, LATER)
    ran = program(words[0], "pad.keys", *words[1:])
    assert (ran.status, path.read_text("utf-8")) == (2, LATER)
    assert "another program changed it meanwhile, so run the command again" in ran.err
