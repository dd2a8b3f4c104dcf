"""`matrixgen build --bench`: a folder for a file's controllers, or for a bare board."""

from __future__ import annotations

import hashlib
import json
import subprocess
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.cli.main import main
from matrixgen.emit.bench_tree import bench_tree
from matrixgen.emit.bench_view import bench_pins, bench_view
from matrixgen.families import FAMILIES
from matrixgen.resources import resource
from tests.documents import report_of
from tests.examples.shipped import FOLDER
from tests.firmware.lights import pad
from tests.program import Program
from tests.toolchain.hex_file import from_hex
from tests.toolchain.trees import BINUTILS
from tests.toolchain.zig import zig

HERON = FOLDER / "heron-12" / "heron-12.keys"
CONTROLLERS = [name for name in builtin_names() if builtin_profile(name).port]


def built(out: Path, *more: str) -> dict[str, bytes]:
    assert main(["build", "--bench", "-o", str(out), *more]) == 0
    files = (path for path in out.rglob("*") if path.is_file())
    return {path.relative_to(out).as_posix(): path.read_bytes() for path in files}


def test_a_bare_board_needs_no_file(program: Program) -> None:
    assert program("build", "--controller", "rp2040", "--bench").status == 0
    images = {"rp2040-bench.hex", "rp2040-bench.uf2"}
    names = {path.name for path in Path("rp2040-bench").iterdir()}
    assert names == {"README.md", "firmware", "manifest.json", *images}


def test_a_file_s_folder_is_named_after_it(program: Program) -> None:
    ran = program("build", str(HERON), "--bench", "--compiler", "gcc")
    assert ran.status == 0 and Path("heron-12-bench/heron-12-bench.hex").is_file()
    assert "heron-12-bench/README.md: what it reports of 21 pins, and how to read it" in ran.out


def test_a_file_that_is_not_finished_does_where_it_names_a_controller(program: Program) -> None:
    text = 'keyboard "Begun"\n  controller stick-32u4\n\nplate\n  line A B\n'
    assert program("build", program.write("begun.keys", text), "--bench").status == 0
    assert Path("begun-bench/begun-bench.hex").is_file()
    program.write("begun.keys", text.replace("  controller stick-32u4\n", ""))
    ran = program("build", "begun.keys", "--bench")
    assert ran.status == 2 and "the file names no controller" in ran.err


def test_the_manifest_says_that_it_is_a_bench_and_names_every_file(tmp_path: Path) -> None:
    files = built(tmp_path / "out", "--controller", "board-32u4-25", "--compiler", "gcc")
    told = report_of(files.pop("manifest.json"), "bench")
    assert told["bench"] == {"protocol": 2, "boot_loader_by_1200_baud": True}
    assert told["files"] == {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}
    assert "PD6" in told["pins"]["left_alone"]  # it has a light
    again = built(tmp_path / "again", "--controller", "board-32u4-25", "--compiler", "gcc")
    assert {name: again[name] for name in files} == files


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--bench"], "neither a file nor a controller is named"),
        ([], "no file is named"),
        (["--bench", "--controller", "board-f103"], "only the pins of `board-f103` are known"),
        (["--bench", "--controller", "nowhere"], "no controller is called `nowhere`"),
        ([str(HERON), "--bench", "--controller", "rp2040"], "names no controller `rp2040`"),
        (["--bench", "--controller", "rp2040", "-o", str(FOLDER)], "did not write"),
    ],
)
def test_bad_use_is_said_and_nothing_is_written(
    program: Program, arguments: list[str], said: str
) -> None:
    ran = program("build", *arguments, *(["--sources"] if arguments else []))
    assert ran.status == 2 and said in ran.err
    assert list(program.folder.iterdir()) == []


def test_a_controller_with_too_little_flash_is_refused(program: Program) -> None:
    profile = json.loads((resource("boards") / "atmega32u4.json").read_text("utf-8"))
    del profile["boot_loader_entry"]
    profile |= {"name": "small", "flash_bytes": 8192, "boot_loader_bytes": 4096}
    program.write("small.json", json.dumps(profile))
    ran = program("build", "--bench", "--controller", "small.json", "-o", "out")
    assert ran.status == 2 and not Path("out").exists()
    assert "needs more flash than `small` has for it" in ran.err


@pytest.mark.few(1)
@pytest.mark.parametrize(("controller", "kind"), [("atmega32u4", "gcc"), ("rp2040", "clang")])
def test_the_written_makefile_builds_the_same_image(
    controller: str, kind: str, tmp_path: Path
) -> None:
    files = built(tmp_path / "out", "--controller", controller, "--compiler", kind)
    firmware = tmp_path / "out" / "firmware"
    known = builtin_profile(controller)
    assert known is not None and known.port
    command = [
        *("make", "-C", str(firmware), f"COMPILER={kind}"),
        f"ZIG={zig(tmp_path, BINUTILS[known.port])}",
    ]
    subprocess.run(command, check=True, capture_output=True)
    made = (firmware / "firmware.hex").read_text("ascii")
    assert from_hex(made) == from_hex(files[_hex(files)].decode())


def _hex(files: dict[str, bytes]) -> str:
    return next(name for name in files if name.endswith(".hex"))


@pytest.mark.parametrize("name", CONTROLLERS)
def test_pins_with_a_part_or_a_duty_of_the_board_are_left_alone(name: str) -> None:
    profile = builtin_profile(name)
    assert profile is not None
    looked_at = {pin.name for pin in bench_pins(profile)}
    assert len(looked_at) >= 16
    for pin in profile.pins:
        may = pin.use != "reserved" and pin.part is None and pin.output and pin.pull_up
        assert (pin.name in looked_at) == may
    pulled = bench_view(profile, FAMILIES[profile.port or ""]).pulled_up
    assert sum(len(port.bits) for port in pulled) == len(looked_at)


def test_pins_with_a_light_stay_as_a_reset_leaves_them() -> None:
    mounted = pad("atmega32u4")
    family = FAMILIES["avr"]
    view = bench_view(mounted.profile, family, left_alone=mounted.light_pins)
    looked_at = {line.pin for line in view.drives}
    assert mounted.light_pins and looked_at.isdisjoint(mounted.light_pins)
    assert looked_at | mounted.light_pins == {pin.name for pin in bench_pins(mounted.profile)}
    pulled = {f"P{port.port}{bit}" for port in view.pulled_up for bit in port.bits}
    assert pulled == looked_at


def test_the_program_is_the_same_bytes_for_every_controller() -> None:
    profiles = [profile for name in CONTROLLERS if (profile := builtin_profile(name))]
    trees = [bench_tree(bench_view(one, FAMILIES[one.port or ""])) for one in profiles]
    kept = ("bench", "usb", "main.c")
    common = [{name: tree[name] for name in tree if name.split("/")[0] in kept} for tree in trees]
    assert len(common[0]) > 20
    assert all(one == common[0] for one in common)
