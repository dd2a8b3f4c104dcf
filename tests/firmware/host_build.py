"""The firmware as a shared library of this computer, and a person at its keys."""

from __future__ import annotations

import ctypes
import subprocess
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.model import Keyboard
from tests.firmware.build_model import SOURCE, mounted, profile
from tests.made_once import key_of, made_once
from tests.objects import compiled_objects

COMPILERS = ("gcc", "clang")
WARNINGS = ("-Wall", "-Wextra", "-Werror", "-Wconversion", "-Wshadow", "-pedantic")
SANITIZERS = ("-fsanitize=address,undefined", "-fno-sanitize-recover=all")
FOLDERS = ("engine", "usb", "port", "tables")
NAK, STALL = -1, -2
Report = ctypes.c_uint8 * 64
UNWRITTEN = b"\xaa" * 64


def host_view(keyboard: Keyboard) -> FirmwareView:
    """Return a view without pins: no chip has as many as a computer's matrix may have lines."""
    return firmware_view(mounted(keyboard, profile(family="host", port=None)), SOURCE, port="host")


def write_tree(tree: Mapping[str, bytes], folder: Path) -> Path:
    for name, content in tree.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return folder


def sources(folder: Path, *, with_usb: bool) -> list[Path]:
    """Every C file but `main.c`, whose loop never ends; the rig stands in for the usb folder."""
    left_out = {"main.c", "transport_rig.c" if with_usb else "usb"}
    found = sorted(folder.rglob("*.c"))
    return [p for p in found if left_out.isdisjoint(p.relative_to(folder).parts)]


def compile_by_parts(
    folder: Path, tree: Mapping[str, bytes], files: Sequence[Path], compiler: str
) -> bytes:
    """Return a shared library, of objects of which most were made before."""
    includes = [f"-I{name}" for name in FOLDERS]
    command = [compiler, "-std=c11", "-O1", *WARNINGS, "-fPIC", *includes]
    names = [path.relative_to(folder).as_posix() for path in files]
    try:
        objects = compiled_objects(command, tree, names, folder)
    except subprocess.CalledProcessError as refused:
        raise AssertionError(refused.stderr) from refused
    linked = [compiler, "-shared", *objects, "-o", "keyboard.so"]
    subprocess.run(linked, cwd=folder, check=True)
    return (folder / "keyboard.so").read_bytes()


def compile_c(
    folder: Path, output: Path, files: Sequence[Path], compiler: str = "gcc", *options: str
) -> Path:
    """Compile and link with warnings as errors; what the compiler says is in the exception."""
    includes = [f"-I{folder / name}" for name in FOLDERS]
    command = [compiler, "-std=c11", "-g", "-O1", *WARNINGS, *options, *includes, "-o", str(output)]
    done = subprocess.run([*command, *map(str, files)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return output


def shared_library(
    keyboard: Keyboard, folder: Path, compiler: str = "gcc", *, with_usb: bool = False
) -> Path:
    """Compile a keyboard's C for this computer, into a file of its own: with its own variables."""
    tree, library = firmware_tree(host_view(keyboard)), folder / "keyboard.so"

    def compiled() -> bytes:
        files = sources(write_tree(tree, folder), with_usb=with_usb)
        return compile_by_parts(folder, tree, files, compiler)

    made = made_once(key_of(tree, compiler, f"{with_usb=}"), compiled)
    folder.mkdir(parents=True, exist_ok=True)
    library.unlink(missing_ok=True)  # an earlier one may be in use
    library.write_bytes(made)
    return library


class HostKeyboard:
    """The compiled engine behind the rig's transport; a key is pressed by its name."""

    def __init__(self, library: Path, view: FirmwareView) -> None:
        self.c = ctypes.CDLL(str(library))
        self.c.keyboard_step.restype = ctypes.c_bool
        self.c.report_write.restype = ctypes.c_uint8
        self.c.host_faults.restype = ctypes.c_uint
        self.c.host_boot_loads.restype = ctypes.c_uint
        self.crossings = {
            view.key_names[key]: (drive, sense)
            for drive, row in enumerate(view.key_at)
            for sense, key in enumerate(row)
            if key is not None
        }
        self.lights = view.lights.lights
        self.restart()

    def restart(self) -> None:
        self.c.host_reset()
        self.c.loop_start()
        self.c.host_suspend(ctypes.c_bool(False))
        self.transport(open=True, boot=False)

    def close(self, key: str, closed: bool) -> None:
        drive, sense = self.crossings[key]
        self.c.host_close(drive, sense, ctypes.c_bool(closed))

    def turn(self, knob: int, contacts: int) -> None:
        """Close these contacts of a knob: A is bit 0, B is bit 1."""
        self.c.host_knob(knob, contacts)

    def spark(self, key: str, before: int = 0, readings: int = 1) -> None:
        """Let so many readings of a key's lines show it closed, after so many others."""
        drive, sense = self.crossings[key]
        self.c.host_spark(drive, sense, before, readings)

    def advance(self, milliseconds: int) -> None:
        self.c.host_advance_ms(milliseconds)

    def transport(self, *, open: bool, boot: bool) -> None:
        self.c.host_transport(ctypes.c_bool(open), ctypes.c_bool(boot))

    def leds(self, report: int) -> None:
        self.c.host_leds(report)

    def step(self) -> bool:
        return bool(self.c.keyboard_step())

    def take(self) -> bytes | None:
        return self._report(self.c.host_take_report)

    def take_media(self) -> bytes | None:
        return self._report(self.c.host_take_media)

    @staticmethod
    def _report(take: Callable[[ctypes.Array[ctypes.c_uint8]], int]) -> bytes | None:
        report = Report()
        length = take(report)
        return None if length == NAK else bytes(report[:length])

    def current(self, *, boot: bool) -> bytes:
        report = Report.from_buffer_copy(UNWRITTEN)
        length: int = self.c.report_write(ctypes.c_bool(boot), report)
        written = bytes(report)
        assert written[length:] == UNWRITTEN[length:], "bytes past the report were written"
        return written[:length]

    def lit(self) -> frozenset[str]:
        """The lights that the port was told to light, by their names."""
        lit = int(self.c.host_lit())
        return frozenset(one.name for one in self.lights if lit >> one.number & 1)

    def boot_loads(self) -> int:
        """How often the engine left for the boot loader, and was brought back."""
        return int(self.c.host_boot_loads())

    def faults(self) -> int:
        return int(self.c.host_faults())
