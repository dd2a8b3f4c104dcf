"""`matrixgen fmt`: what it writes, shows and refuses, and with what exit status."""

import os
import re
from errno import ENOSPC
from pathlib import Path

import pytest

from matrixgen.cli import write_file
from matrixgen.format import formatted as room
from tests.texts import GOOD

NAME, AFTER_PIN = " " * 12, " " * 3
"""A name takes twelve letters of a line, and two blanks are behind the columns."""

PLAIN = re.sub(r" (\w\w) on (P\w\d)  ", rf" \1{NAME[2:]}on \2{AFTER_PIN}", GOOD)
LOOSE = PLAIN.replace("line A B", "line  A   B").replace("on PB0   A\n", "on PB0 A # left\n")
FORM = PLAIN.replace("on PB0   A\n", "on PB0   A  # left\n")


def bytes_of(program, name):
    return (program.folder / name).read_bytes().decode()


def test_a_file_is_formatted_and_named_once(program):
    name = program.write("pad.keys", LOOSE)
    ran = program("fmt", name, name)
    assert (ran.status, ran.out, ran.err) == (0, "formatted pad.keys\n", "")
    assert bytes_of(program, name) == FORM


def test_a_file_in_form_is_not_touched(program):
    name = program.write("pad.keys", FORM)
    before = (program.folder / name).stat()
    ran = program("fmt", name)
    after = (program.folder / name).stat()
    assert (ran.status, ran.out, ran.err) == (0, "", "")
    assert (before.st_ino, before.st_mtime_ns) == (after.st_ino, after.st_mtime_ns)


@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_mark_and_line_ends_stay(program, mark, end):
    name = program.write("pad.keys", mark + LOOSE.replace("\n", end))
    assert program("fmt", name).status == 0
    assert bytes_of(program, name) == mark + FORM.replace("\n", end)


def test_several_files_are_counted(program):
    names = [program.write("a.keys", LOOSE), program.write("b.keys", FORM)]
    ran = program("fmt", *names)
    assert (ran.status, ran.out) == (0, "formatted a.keys\nformatted 1 of 2 files\n")
    assert program("fmt", *names).out == "formatted 0 of 2 files\n"


def test_check_names_what_is_not_in_form_and_writes_nothing(program):
    names = [program.write("a.keys", LOOSE), program.write("b.keys", FORM)]
    ran = program("fmt", "--check", *names)
    assert (ran.status, ran.out) == (1, "would format a.keys\nwould format 1 of 2 files\n")
    assert bytes_of(program, "a.keys") == LOOSE
    assert (program("fmt", "--check", "b.keys").status, ran.err) == (0, "")


DIFF = """\
--- pad.keys
+++ pad.keys (formatted)
@@ -2,11 +2,11 @@
   controller atmega32u4
{blank}
 plate
-  line  A   B
+  line A B
{blank}
 wiring
   drive columns, sense rows
   diodes 1N4148, band toward columns
   row    r0          on PD0   A B
-  column c0          on PB0 A # left
+  column c0          on PB0   A  # left
   column c1          on PB1   B
""".format(blank=" ")


@pytest.mark.parametrize(("options", "status"), [(["--diff"], 0), (["--diff", "--check"], 1)])
def test_diff_shows_what_would_change_and_writes_nothing(program, options, status):
    name = program.write("pad.keys", LOOSE)
    ran = program("fmt", *options, name)
    assert (ran.status, ran.out, ran.err) == (status, DIFF, "")
    assert bytes_of(program, name) == LOOSE


def test_diff_of_files_in_form_is_empty(program):
    ran = program("fmt", "--diff", "--check", program.write("pad.keys", FORM))
    assert (ran.status, ran.out) == (0, "")


def test_diff_tells_of_a_missing_line_end_and_of_mixed_ones(program):
    name = program.write("pad.keys", "plate\n  line A")
    assert program("fmt", "--diff", name).out.endswith(
        "-  line A\n\\ No newline at end of file\n+  line A\n"
    )
    name = program.write("pad.keys", "plate\r\n  line A\n")
    assert program("fmt", "--diff", name).out == (
        "pad.keys: its line ends are of more than one kind\n"
    )
    assert program("fmt", "--check", name).status == 1


def test_diff_shows_tabs_but_drives_no_terminal(program):
    name = program.write("pad.keys", "plate\n\tline A # \x1b[31m\n")
    out = program("fmt", "--diff", name).out
    assert "-\tline A # \\x1b[31m\n" in out and "\x1b" not in out


def test_standard_input_goes_to_standard_output(program):
    text = "\ufeff" + LOOSE.replace("\n", "\r\n").replace("Pad", "Pad é")
    ran = program("fmt", "-", stdin=text.encode())
    assert (ran.status, ran.err) == (0, "")
    assert ran.out == "\ufeff" + FORM.replace("\n", "\r\n").replace("Pad", "Pad é")
    assert program("fmt", "-", stdin=FORM.encode()).out == FORM


def test_standard_input_can_be_checked_and_compared(program):
    ran = program("fmt", "--check", "-", stdin=LOOSE.encode())
    assert (ran.status, ran.out) == (1, "would format <stdin>\n")
    ran = program("fmt", "--diff", "-", stdin=LOOSE.encode())
    assert ran.status == 0 and ran.out == DIFF.replace("pad.keys", "<stdin>")


def test_standard_input_beside_files_is_refused_where_both_would_be_printed(program):
    name = program.write("pad.keys", LOOSE)
    ran = program("fmt", "-", name, stdin=LOOSE.encode())
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith("matrixgen: `-` cannot be given with files\n")
    assert bytes_of(program, name) == LOOSE
    assert program("fmt", "--check", "-", name, stdin=FORM.encode()).status == 1


def test_standard_input_that_cannot_be_read_prints_nothing(program):
    ran = program("fmt", "-", stdin=b"plate\n  lime A\n")
    assert (ran.status, ran.out) == (1, "") and "<stdin>:2:3: error[unknown-statement]" in ran.err
    ran = program("fmt", "-", stdin=b"plate\n  line \xff\n")
    assert (ran.status, ran.out) == (2, "") and "error[not-utf8]" in ran.err


def test_a_file_with_a_line_that_cannot_be_read_is_left_alone(program):
    text = LOOSE.replace("row    r0", "raw    r0")
    name = program.write("pad.keys", text)
    for options in ([], ["--check"], ["--diff"]):
        ran = program("fmt", *options, name)
        assert (ran.status, ran.out) == (1, "")
        assert "pad.keys:10:3: error[unknown-statement]" in ran.err
    assert bytes_of(program, name) == text


@pytest.mark.parametrize(
    "text",
    [
        "plate\n  line  A\n",  # unfinished
        LOOSE.replace("on PB1", "on PB0"),  # breaks a rule
        LOOSE + "\nlayer x\n  Z  = 1\n",  # names what is not there
        "layer x\n  A  = 1\n",  # has no plate
    ],
)
def test_an_unfinished_or_a_wrong_file_is_formatted(program, text):
    name = program.write("pad.keys", text)
    ran = program("fmt", name)
    assert (ran.status, ran.out, ran.err) == (0, "formatted pad.keys\n", "")
    assert program("fmt", "--check", name).status == 0


@pytest.mark.parametrize("text", ["", "\n", "# nothing yet\n"])
def test_files_without_a_block(program, text):
    name = program.write("pad.keys", text)
    assert program("fmt", name).status == 0
    assert bytes_of(program, name) == text.lstrip("\n")


def test_what_is_no_file_is_named_and_the_others_are_formatted(program):
    (program.folder / "folder").mkdir()
    binary = program.write("binary.keys", b"\x7fELF\x00\xff\xfe")
    name = program.write("pad.keys", LOOSE)
    ran = program("fmt", "folder", "missing.keys", binary, "a\0b", name)
    assert ran.status == 2
    assert ran.out == "formatted pad.keys\nformatted 1 of 5 files\n"
    assert "`folder` cannot be read: it is a folder" in ran.err
    assert "`missing.keys` cannot be read: there is no such file" in ran.err
    assert "error[not-utf8]" in ran.err and "Traceback" not in ran.err
    assert bytes_of(program, name) == FORM


def test_a_file_that_is_too_large_is_refused(program):
    name = program.write("pad.keys", "#" * 1_000_001)
    ran = program("fmt", name)
    assert (ran.status, ran.out) == (1, "") and "error[over-the-limit]" in ran.err


def test_a_read_only_file_is_not_replaced(program):
    name = program.write("pad.keys", LOOSE)
    (program.folder / name).chmod(0o444)
    ran = program("fmt", name)
    assert (ran.status, ran.out) == (2, "")
    assert ran.err == "matrixgen: `pad.keys` cannot be written: it is read-only\n"
    assert bytes_of(program, name) == LOOSE
    assert program("fmt", "--check", name).status == 1


def test_a_failure_to_write_is_told_and_the_next_file_is_formatted(program, monkeypatch):
    names = [program.write("a.keys", LOOSE), program.write("b.keys", LOOSE)]
    write = write_file.replace

    def full_disk(path, *words):
        if path.name == "a.keys":
            raise OSError(ENOSPC, os.strerror(ENOSPC))
        write(path, *words)

    monkeypatch.setattr(write_file, "replace", full_disk)
    ran = program("fmt", *names)
    assert ran.status == 2
    assert ran.err == "matrixgen: `a.keys` cannot be written: no space left on device\n"
    assert ran.out == "formatted b.keys\nformatted 1 of 2 files\n"


def test_a_link_stays_a_link_and_the_mode_stays(program):
    target = program.folder / program.write("pad.keys", LOOSE)
    target.chmod(0o640)
    link = program.folder / "link.keys"
    link.symlink_to("pad.keys")
    assert program("fmt", "link.keys").out == "formatted link.keys\n"
    assert link.is_symlink() and link.readlink() == Path("pad.keys")
    assert target.read_text() == FORM and target.stat().st_mode & 0o777 == 0o640
    assert sorted(path.name for path in program.folder.iterdir()) == ["link.keys", "pad.keys"]


def test_a_form_that_says_something_else_is_a_fault_and_is_not_written(program, monkeypatch):
    name = program.write("pad.keys", LOOSE)
    right = room.text_of
    monkeypatch.setattr(room, "text_of", lambda tree: right(tree).replace("A B", "B A"))
    ran = program("fmt", name)
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith("matrixgen: `pad.keys` was left as it is: its canonical form would")
    assert bytes_of(program, name) == LOOSE


def test_without_a_file_the_use_is_told(program):
    ran = program("fmt")
    assert ran.status == 2 and "usage: matrixgen fmt" in ran.err


@pytest.mark.parametrize("rows", ["2", "3"])
def test_a_wiring_that_fit_writes_is_in_form(program, rows):
    keys = "\n".join(f"  line {' '.join(f'K{n}{m:02}' for m in range(24))}" for n in range(2))
    name = program.write("pad.keys", f'keyboard "Pad"\n  controller rp2040\n\nplate\n{keys}\n')
    assert program("fit", name, "--rows", rows, "--write").status == 0
    written = bytes_of(program, name)
    ran = program("fmt", name)
    assert "\nwiring\n" in written and ran.out == "" and bytes_of(program, name) == written
