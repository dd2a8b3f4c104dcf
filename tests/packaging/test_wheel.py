"""The built wheel, installed in a fresh environment, works in a folder outside the checkout."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

from tests.examples.shipped import FOLDER

CHECKOUT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "-w", str(folder)]
    subprocess.run([*command, str(CHECKOUT)], check=True)
    return next(folder.glob("matrixgen-*.whl"))


@pytest.fixture(scope="module")
def program(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The installed program, in an environment that has nothing but it and what it needs."""
    folder = tmp_path_factory.mktemp("fresh")
    venv.create(folder)
    pip = [sys.executable, "-m", "pip", "--python", str(folder / "bin" / "python")]
    quick = ["--quiet", "--disable-pip-version-check", "--no-compile"]  # most of it is never run
    subprocess.run([*pip, "install", *quick, str(wheel)], check=True)
    return folder / "bin" / "matrixgen"


def run(program: Path, folder: Path, *words: str, path: str | None = None, status: int = 0) -> str:
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    if path is not None:
        environment["PATH"] = path
    done = subprocess.run(
        [str(program), *words], cwd=folder, env=environment, capture_output=True, text=True
    )
    assert done.returncode == status, done.stdout + done.stderr
    return done.stdout + done.stderr


def test_the_wheel_carries_every_file_of_the_data_folders(wheel: Path) -> None:
    held = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("grammar", "templates", "boards"):
        for path in (CHECKOUT / folder).rglob("*"):
            if path.is_file():
                assert f"matrixgen/_data/{path.relative_to(CHECKOUT).as_posix()}" in held


def test_an_install_is_small(program: Path) -> None:
    """Byte code, which is not there, adds some half."""
    packages = program.parents[1] / "lib"
    size = sum(path.stat().st_size for path in packages.rglob("*") if path.is_file())
    assert size < 60_000_000


def test_it_checks_and_builds_an_example_to_an_image(program: Path, tmp_path: Path) -> None:
    shutil.copy(FOLDER / "godwit-46" / "godwit-46.keys", tmp_path)
    run(program, tmp_path, "check", "godwit-46.keys")
    run(program, tmp_path, "build", "godwit-46.keys", "-o", "made", "--compiler", "gcc")
    assert json.loads((tmp_path / "made" / "manifest.json").read_text("utf-8"))["image"]
    assert (tmp_path / "made" / "godwit-46.hex").is_file()


def test_with_no_compiler_on_the_machine_it_still_writes_the_sources(
    program: Path, tmp_path: Path
) -> None:
    run(program, tmp_path, "new", "starter")
    told = run(program, tmp_path, "build", "starter.keys", "-o", "made", path="", status=1)
    assert 'pip install "matrixgen[compiler]"' in told
    assert not (tmp_path / "made").exists()
    run(program, tmp_path, "build", "starter.keys", "-o", "made", "--sources", path="")
    assert (tmp_path / "made" / "firmware" / "main.c").is_file()
    assert not (tmp_path / "made" / "starter.hex").exists()


def test_every_command_of_the_program_is_there(program: Path, tmp_path: Path) -> None:
    assert "stick-32u4" in run(program, tmp_path, "boards")
    assert "# error[syntax]" in run(program, tmp_path, "explain", "syntax")
