"""What a program has to do for itself on Windows, with the system's functions replaced.

Nobody has run this on Windows. Names and numbers of the functions are of Microsoft's API, from
memory; how pyserial words its errors there was read in its `serialwin32.py`.
"""

from __future__ import annotations

import ctypes
import io
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from serial import SerialException
from serial.tools import list_ports

from matrixgen.cli import main as program
from matrixgen.cli.printer import is_screen, wants_colour
from matrixgen.cli.windows import expanded
from matrixgen.failure import Failure
from matrixgen.load import drives
from matrixgen.load.drives import INFO, is_gone
from matrixgen.ports import opening
from matrixgen.ports.listing import serial_ports
from tests.load.clock import Clock


@pytest.fixture
def kernel(monkeypatch):
    """The functions of kernel32 that are called, on a system that says that it is Windows."""
    made = SimpleNamespace()
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(kernel32=made), raising=False)
    return made


# --- drives ---


def test_drives_are_looked_for_by_their_letters_and_only_removable_ones(
    kernel, monkeypatch, tmp_path
):
    """A fixed disk, a network's drive and an empty card reader are not looked into."""
    looked_at = []
    kinds = {"C:\\": 3, "D:\\": 4, "E:\\": 2, "G:\\": 2}
    kernel.GetLogicalDrives = lambda: sum(1 << ord(root[0]) - ord("A") for root in kinds)
    kernel.GetDriveTypeW = lambda root: kinds[root]
    for root in kinds:
        (tmp_path / root[0]).mkdir()
    (tmp_path / "E" / INFO).write_text("Model: A board\nBoard-ID: RPI-RP2\n")

    def at(root):
        looked_at.append(root)
        return tmp_path / root[0] if root in kinds else Path(root)

    monkeypatch.setattr(drives, "Path", at)
    found = drives.drives()
    assert looked_at[:2] == ["E:\\", "G:\\"]
    assert [(drive.board_id, drive.device) for drive in found] == [("RPI-RP2", None)]
    assert not is_gone(found[0])
    (tmp_path / "E" / INFO).unlink()
    assert is_gone(found[0])


# --- the console ---


class Console(io.StringIO):
    def isatty(self):
        return True

    def fileno(self):
        return 1


def test_the_console_is_told_to_take_colours(kernel, monkeypatch):
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.delenv("TERM", raising=False)
    modes = []
    kernel.GetStdHandle = lambda number: 7 if number == -11 else None
    kernel.GetConsoleMode = lambda handle, mode: setattr(mode._obj, "value", 3) or 1
    kernel.SetConsoleMode = lambda handle, mode: modes.append((handle.value, mode)) or 1
    assert wants_colour(Console())
    assert modes == [(7, 3 | 4)]
    monkeypatch.setenv("NO_COLOR", "1")
    assert not wants_colour(Console())


@pytest.mark.parametrize(("has_mode", "can_be_set"), [(0, 1), (1, 0)])
def test_an_old_console_gets_no_sequences(kernel, monkeypatch, has_mode, can_be_set):
    monkeypatch.delenv("NO_COLOR", raising=False)
    kernel.GetStdHandle = lambda number: 7
    kernel.GetConsoleMode = lambda handle, mode: has_mode
    kernel.SetConsoleMode = lambda handle, mode: can_be_set
    assert not wants_colour(Console())
    assert not is_screen(Console())


def test_elsewhere_nothing_is_asked():
    assert is_screen(Console())
    assert not is_screen(io.StringIO())


# --- wildcards ---


def test_patterns_of_keys_files_become_the_files(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for name in ("b.keys", "a.keys", "a.txt", "[x].keys", "what?.keys"):
        (tmp_path / name).touch()
    files = ["[x].keys", "a.keys", "b.keys", "what?.keys"]
    assert expanded(["check", "*.keys"]) == ["check", *files]
    assert expanded(["check", "?.keys", "--json"]) == ["check", "a.keys", "b.keys", "--json"]
    assert expanded(["x*.keys", "*.txt", "*", "-*.keys", "what?.keys", "[x].keys"]) == [
        *("x*.keys", "*.txt", "*", "-*.keys", "what?.keys", "[x].keys")
    ]


@pytest.mark.parametrize(("platform", "given"), [("win32", ["a.keys"]), ("linux", ["*.keys"])])
def test_only_windows_has_them_expanded(platform, given, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.keys").touch()
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setattr(sys, "argv", ["matrixgen", "check", "*.keys"])
    assert program._words() == ["check", *given]


# --- ports ---


def refused(words, monkeypatch):
    def open_once(path, baud):
        raise SerialException(f"could not open port {path!r}: {words}")

    monkeypatch.setattr(opening, "open_once", open_once)
    monkeypatch.setattr(opening, "time", Clock())
    with pytest.raises(Failure) as caught:
        opening.open_patiently("COM3", 9600)
    return caught.value.text


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("PermissionError(13, 'Access is denied.', None, 5)", "another program has `COM3` open"),
        (
            "FileNotFoundError(2, 'The system cannot find the file specified.', None, 2)",
            "there is no port `COM3`",
        ),
        ("OSError(22, 'The semaphore timeout period has expired.', None, 121)", "cannot be opened"),
        ("something else", "`COM3` is not a serial port"),
    ],
)
def test_a_port_that_windows_refuses_is_told_by_its_reason(words, told, monkeypatch):
    monkeypatch.setattr(sys, "platform", "win32")
    text = refused(words, monkeypatch)
    assert told in text and "Error(" not in text


def test_access_that_is_denied_elsewhere_is_a_matter_of_rights(monkeypatch):
    assert refused("PermissionError(13, 'x')", monkeypatch) == "you may not use `COM3`"


@pytest.mark.parametrize(
    ("device", "description"),
    [("COM3", "USB Serial Device (COM3)"), ("/dev/cu.usbmodem14101", "n/a")],
)
def test_ports_are_named_as_the_system_names_them(device, description, monkeypatch):
    """Windows does not tell the product's name for a driver of its own."""
    port = SimpleNamespace(
        device=device, product=None, description=description, vid=0x1209, pid=0x0002
    )
    other = SimpleNamespace(device="COM1", product=None, description="", vid=None, pid=None)
    monkeypatch.setattr(list_ports, "comports", lambda: [port, other])
    (found,) = serial_ports()
    assert found.is_bench and found.shown == f"{device}  {description} (1209:0002)"


# --- a Python without parts that Windows' has not ---


def test_commands_need_no_module_that_windows_lacks():
    """Only where they are used, and then with something instead."""
    lacks = ("curses", "fcntl", "grp", "pwd", "resource", "termios", "tty", "pty")
    code = (
        "import sys\n"
        f"for name in {lacks!r}: sys.modules[name] = None\n"
        "import importlib\n"
        "from matrixgen.cli.commands import COMMANDS\n"
        "for name in COMMANDS: importlib.import_module('matrixgen.cli.' + name.replace('-', '_'))\n"
        "from matrixgen.ports.opening import terminal_errors\n"
        "assert terminal_errors() == (OSError,)\n"
        "import matrixgen.load.by_serial, matrixgen.jobs.bench_session\n"
    )
    import subprocess

    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
