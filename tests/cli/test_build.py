"""`matrixgen build` writes a whole folder or nothing, and the same one each time."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from matrixgen.cli.main import main
from matrixgen.families import CompilerKind
from matrixgen.resources import resource
from tests.amounts import IS_LONG, in_turn
from tests.documents import report_of
from tests.examples.shipped import BUILDS, COMPILERS, FOLDER, NAMES, example, image
from tests.program import Program
from tests.texts import good_on
from tests.toolchain.hex_file import from_hex
from tests.toolchain.zig import zig

HERON = FOLDER / "heron-12" / "heron-12.keys"
HERON_TEXT = HERON.read_text("utf-8")
OWN_BUILDS = [build for build in BUILDS if build[1] == example(build[0]).profile.port]
COMPILED_TWICE = (
    OWN_BUILDS
    if IS_LONG
    else list({(family, kind): (name, family, kind) for name, family, kind in OWN_BUILDS}.values())
)
"""An image takes nothing from where its file lies but what is in its tree."""


def tree(folder: Path) -> dict[str, bytes]:
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def build(path: Path, out: Path, *more: str) -> int:
    return main(["build", str(path), "-o", str(out), *more])


@pytest.mark.few(3)
@pytest.mark.parametrize("name", NAMES)
def test_the_same_file_gives_the_same_sources_wherever_it_lies(name: str, tmp_path: Path) -> None:
    elsewhere = tmp_path / "a folder with blanks"
    elsewhere.mkdir()
    copy = shutil.copy(FOLDER / name / f"{name}.keys", elsewhere)
    more = ("--controller", example(name).profile.name, "--sources")
    assert build(FOLDER / name / f"{name}.keys", tmp_path / "one", *more) == 0
    assert build(Path(copy), tmp_path / "two", *more) == 0
    assert tree(tmp_path / "one") == tree(tmp_path / "two")


@pytest.mark.few(2)
@pytest.mark.parametrize(("name", "family", "kind"), COMPILED_TWICE)
def test_the_same_file_gives_the_same_bytes_wherever_it_lies(
    name: str, family: str, kind: str, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    """And whoever builds it: one of the two images may be that of another worker of the run."""
    elsewhere = tmp_path / "a folder with blanks"
    elsewhere.mkdir()
    copy = shutil.copy(FOLDER / name / f"{name}.keys", elsewhere)
    more = ("--controller", example(name).profile.name, "--compiler", kind)
    assert build(FOLDER / name / f"{name}.keys", tmp_path / "one", *more) == 0
    request.getfixturevalue("compiles_anew")
    assert build(Path(copy), tmp_path / "two", *more) == 0
    assert tree(tmp_path / "one") == tree(tmp_path / "two")
    assert f"{name}.hex" in tree(tmp_path / "one")


@pytest.mark.few(6)
@pytest.mark.parametrize("name", NAMES)
def test_the_manifest_follows_its_schema_and_names_every_file(name: str, tmp_path: Path) -> None:
    path, out = FOLDER / name / f"{name}.keys", tmp_path / "out"
    assert build(path, out, "--controller", example(name).profile.name) == 0
    files = tree(out)
    told = report_of(files.pop("manifest.json"), "manifest")
    assert told["files"] == {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}
    assert told["source"]["sha256"] == hashlib.sha256(path.read_bytes()).hexdigest()


def test_the_image_in_the_folder_is_the_one_that_ran_on_the_emulator(tmp_path: Path) -> None:
    assert build(HERON, tmp_path / "out", "--compiler", "gcc") == 0
    text = (tmp_path / "out" / "heron-12.hex").read_text("ascii")
    assert from_hex(text) == image("heron-12", "gcc").flash


@pytest.mark.few(1)
@pytest.mark.parametrize("kind", COMPILERS)
def test_the_written_makefile_builds_the_same_image(kind: str, tmp_path: Path) -> None:
    assert build(HERON, tmp_path / "out", "--compiler", kind) == 0
    firmware = tmp_path / "out" / "firmware"
    command = ["make", "-C", str(firmware), f"COMPILER={kind}", f"ZIG={zig(tmp_path, 'avr')}"]
    subprocess.run(command, check=True, capture_output=True)
    made = (firmware / "firmware.hex").read_text("ascii")
    ours = (tmp_path / "out" / "heron-12.hex").read_text("ascii")
    assert from_hex(made) == from_hex(ours)


def test_a_broken_file_leaves_no_folder_and_its_findings_on_stderr(program: Program) -> None:
    broken = program.write("broken.keys", HERON_TEXT.replace("on PD1", "on PD0"))
    ran = program("build", broken, "-o", "out")
    assert (ran.status, ran.out) == (1, "") and not Path("out").exists()
    assert "error[pin-used-twice]" in ran.err


def test_a_warning_is_told_and_does_not_stop_the_build(program: Program) -> None:
    ran = program("build", program.write("warned.keys", HERON_TEXT.replace("on PD3", "on PD7")))
    assert ran.status == 0 and "warning[pin-with-second-function]" in ran.err
    assert Path("warned/warned.hex").is_file()


@pytest.mark.parametrize(
    "words", [("nowhere.keys",), (str(HERON), "--sources", "--compiler", "gcc")]
)
def test_bad_use_leaves_no_folder(program: Program, words: tuple[str, ...]) -> None:
    assert program("build", *words, "-o", "out").status == 2
    assert not Path("out").exists()


@pytest.mark.parametrize(
    ("folder", "words", "said"),
    [
        ("out", ("-o", "out"), "holds files that this program did not write"),
        ("heron-12", (), "name another folder with -o"),
    ],
)
def test_somebody_else_s_folder_is_left_alone(
    program: Program, folder: str, words: tuple[str, ...], said: str
) -> None:
    Path(folder).mkdir()
    program.write(f"{folder}/letter.txt", "dear")
    ran = program("build", str(HERON), "--sources", *words)
    assert (ran.status, tree(Path(folder))) == (2, {"letter.txt": b"dear"})
    assert said in ran.err


NO_IMAGE = "matrixgen: no image was made: there is no "


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ((), "compiler on this computer"),
        (("--compiler", "gcc"), "avr-gcc on this computer"),
        (("--compiler", "clang"), "Clang from the package ziglang on this computer"),
        (("--bench",), "compiler on this computer"),
    ],
)
def test_without_a_compiler_no_image_is_made_and_that_is_no_success(
    program: Program, monkeypatch: pytest.MonkeyPatch, more: tuple[str, ...], said: str
) -> None:
    monkeypatch.setattr("matrixgen.jobs.images.find_compiler", lambda kind, family: None)
    ran = program("build", str(HERON), "-o", "out", *more)
    assert (ran.status, ran.out) == (1, "") and not Path("out").exists()
    assert ran.err.startswith(f"{NO_IMAGE}{said}\n    help: ")
    assert "matrixgen[compiler]" in ran.err or "gcc-avr" in ran.err
    assert ran.err.endswith("    help: `--sources` writes all but the image\n")


@pytest.mark.parametrize("more", [(), ("--bench",)])
def test_sources_alone_take_no_compiler(
    more: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("matrixgen.jobs.images.find_compiler", lambda kind, family: None)
    assert build(HERON, tmp_path / "out", "--sources", *more) == 0
    files = tree(tmp_path / "out")
    assert json.loads(files["manifest.json"])["image"] is None
    assert "firmware/Makefile" in files
    assert not [name for name in files if name.endswith((".hex", ".uf2"))]


TOO_SMALL = [
    ("flash_bytes", 7168, "image-over-flash"),  # less the boot loader's 4,096 it is too small
    ("flash_bytes", 4096, "image-over-flash"),  # the linker itself finds no room
    ("ram_bytes", 128, "variables-over-ram"),
    ("ram_bytes", 256, "variables-over-ram"),
]


@pytest.mark.few(2)
@pytest.mark.parametrize(
    ("field", "size", "slug", "kind"),
    [(*case, kind) for case, kind in in_turn(TOO_SMALL, COMPILERS)],
)
def test_an_image_that_does_not_fit_is_a_finding_and_writes_nothing(
    program: Program, field: str, size: int, slug: str, kind: str
) -> None:
    profile = json.loads((resource("boards") / "at90usb162.json").read_text("utf-8"))
    profile["name"] = "small"
    profile["boot_loader_bytes"] = min(profile["boot_loader_bytes"], size // 2)
    profile[field] = size
    del profile["boot_loader_entry"]
    program.write("small.json", json.dumps(profile))
    text = HERON_TEXT.replace("controller at90usb162", 'controller "small.json"')
    ran = program("build", program.write("pad.keys", text), "--compiler", kind)
    assert ran.status == 1 and not Path("pad").exists()
    assert f"error[{slug}]" in ran.err and "pad.keys:3:14" in ran.err


@pytest.mark.parametrize(("name", "family", "kind"), OWN_BUILDS)
def test_the_examples_fit_with_room_to_spare(name: str, family: str, kind: CompilerKind) -> None:
    assert image(name, kind, family).flash_used < example(name).profile.room_bytes * 6 // 10


TWO = good_on("stick-32u4, rp2040-40pin", "PD1, GP2", "PD0, GP3", "PD4, GP4")


@pytest.fixture
def two(program: Program) -> Program:
    program.write("ferry.keys", TWO)
    return program


def test_all_builds_a_folder_for_each_controller_with_the_form_that_it_loads(two: Program) -> None:
    ran = two("build", "ferry.keys", "-o", "out", "--all")
    assert ran.status == 0
    files = tree(Path("out"))
    assert {name.split("/")[0] for name in files} == {"stick-32u4", "rp2040-40pin"}
    assert {"stick-32u4/ferry.hex", "rp2040-40pin/ferry.uf2", "rp2040-40pin/ferry.hex"} <= {*files}
    lines = {
        name: json.loads(files[f"{name}/manifest.json"])["pins"]["lines"]
        for name in ("stick-32u4", "rp2040-40pin")
    }
    assert lines["stick-32u4"] == {"r0": "PD1", "c0": "PD0", "c1": "PD4"}
    assert len(lines["rp2040-40pin"]) == 3
    assert "ferry.uf2" in ran.out
    assert ran.out.count("1209:0001") == 1, "what holds for all is said once"


def test_one_controller_of_several_can_be_asked_for(two: Program) -> None:
    assert two("build", "ferry.keys", "--controller", "rp2040-40pin").status == 0
    assert Path("ferry/ferry.uf2").is_file()


@pytest.mark.parametrize("more", [(), ("--controller", "atmega32u4")])
def test_several_controllers_and_no_word_on_which_is_bad_use(
    more: tuple[str, ...], two: Program
) -> None:
    ran = two("build", "ferry.keys", *more)
    assert ran.status == 2 and not Path("ferry").exists()
    assert "`stick-32u4` and `rp2040-40pin`" in ran.err


def test_one_controller_that_is_too_small_stops_all(two: Program) -> None:
    small = json.loads((resource("boards") / "rp2040-40pin.json").read_text("utf-8"))
    two.write("small.json", json.dumps(small | {"name": "small", "flash_bytes": 2048}))
    two.write("ferry.keys", TWO.replace("rp2040-40pin", '"small.json"'))
    assert two("build", "ferry.keys", "--all").status == 1
    assert not Path("ferry").exists()


def test_a_report_that_cannot_be_printed_is_not_blamed_on_the_compiler(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(*words: object, **more: object) -> None:
        raise BrokenPipeError(32, "Broken pipe")

    monkeypatch.setattr("builtins.print", gone)
    with pytest.raises(BrokenPipeError):
        build(HERON, tmp_path / "out", "--sources")
    assert (tmp_path / "out" / "pins.md").is_file()


def test_all_writes_nothing_where_one_of_the_folders_is_somebody_else_s(two: Program) -> None:
    Path("out/rp2040-40pin").mkdir(parents=True)
    two.write("out/rp2040-40pin/letter.txt", "dear")
    assert two("build", "ferry.keys", "-o", "out", "--all", "--sources").status == 2
    assert tree(Path("out")) == {"rp2040-40pin/letter.txt": b"dear"}


def test_all_does_not_go_under_the_folder_of_one_build(two: Program) -> None:
    assert two("build", "ferry.keys", "--controller", "stick-32u4", "--sources").status == 0
    before = tree(Path("ferry"))
    ran = two("build", "ferry.keys", "--all", "--sources")
    assert (ran.status, tree(Path("ferry"))) == (2, before)
    assert "is the folder of one build" in ran.err


# --- without -o ---


def test_without_o_the_folder_is_named_after_the_file_and_lies_here(program: Program) -> None:
    for _ in range(2):  # its own folder is replaced
        assert program("build", str(HERON), "--sources").status == 0
        assert "pins.md" in tree(Path("heron-12"))


def test_without_o_standard_input_goes_into_a_folder_named_after_the_keyboard(
    program: Program,
) -> None:
    assert program("build", "-", "--sources", stdin=HERON.read_bytes()).status == 0
    assert "pins.md" in tree(Path("heron-12"))


def test_without_o_a_file_called_as_the_folder_would_be_is_not_written_over(
    program: Program,
) -> None:
    assert program("build", program.write("heron", HERON_TEXT), "--sources").status == 2
    assert Path("heron").read_text("utf-8") == HERON_TEXT


def test_what_keys_type_in_turn_is_told_in_bytes(program: Program) -> None:
    """Two for each row of the firmware's table, and nothing where there is none."""
    told = program("build", str(FOLDER / "redshank-30" / "redshank-30.keys"), "-o", "out").out
    table = Path("out/firmware/tables/table_in_turn.c").read_text("utf-8")
    rows = len(re.findall(r"\{0x\w\w, 0x\w\w\}", table))
    assert rows and f"({2 * rows} for what keys type in turn)" in told
    assert "in turn" not in program("build", str(HERON), "-o", "plain").out
