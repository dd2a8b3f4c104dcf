"""The empty port compiles, has every function of port.h, and its guide lists them all."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.resources import resource
from tests.firmware.build_model import SOURCE, mounted, profile
from tests.firmware.host_build import COMPILERS, FOLDERS, WARNINGS, write_tree
from tests.firmware.pads import square_board

PORTS = resource("templates") / "firmware" / "ports"
FUNCTION = re.compile(r"^[a-z]\w*(?: \w+)* \**(port_\w+)\(", re.MULTILINE)


def declared() -> set[str]:
    return set(FUNCTION.findall((PORTS / "port.h").read_text("utf-8")))


@pytest.mark.parametrize("compiler", COMPILERS)
def test_the_whole_firmware_links_with_it_freestanding(compiler: str, tmp_path: Path) -> None:
    view = firmware_view(mounted(square_board(), profile()), SOURCE, port="template")
    folder = write_tree(firmware_tree(view), tmp_path)
    includes = [f"-I{folder / name}" for name in FOLDERS]
    command = [compiler, "-std=c11", "-ffreestanding", *WARNINGS, *includes]
    command += [*map(str, sorted(folder.rglob("*.c"))), "-o", str(tmp_path / "firmware")]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_it_defines_every_function_of_the_seam() -> None:
    sources = [path for path in (PORTS / "template").iterdir() if ".c" in path.name]
    defined = {name for path in sources for name in FUNCTION.findall(path.read_text("utf-8"))}
    assert len(declared()) == 32
    assert defined == declared()


def test_the_guide_lists_every_function_of_the_seam() -> None:
    guide = (PORTS / "README.md").read_text("utf-8")
    assert set(re.findall(r"^\| `(port_\w+)`", guide, re.MULTILINE)) == declared()


def test_the_guide_lists_every_port() -> None:
    guide = (PORTS / "README.md").read_text("utf-8")
    folders = {path.name for path in PORTS.iterdir() if path.is_dir()}
    assert set(re.findall(r"^\| `(\w+)/`", guide, re.MULTILINE)) == folders
