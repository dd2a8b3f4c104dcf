"""Images against what the binutils of each family say of the same ELF file."""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

import pytest

from matrixgen.boards import builtin_profile
from matrixgen.families import AVR, CompilerKind
from matrixgen.toolchain import (
    Budget,
    CompileFailure,
    Overrun,
    compile_tree,
    overruns,
    read_image,
    to_hex,
)
from tests.amounts import in_turn
from tests.toolchain.hex_file import from_hex
from tests.toolchain.trees import (
    BINUTILS,
    CHIPS,
    COMPILERS,
    compiler,
    family_of,
    image,
    tree,
    write,
)
from tests.toolchain.zig import zig

EVERY = in_turn(CHIPS, COMPILERS)


@pytest.mark.few(8)
@pytest.mark.parametrize(("chip", "kind"), EVERY)
def test_every_chip_builds_to_what_objcopy_reads(
    chip: str, kind: CompilerKind, tmp_path: Path
) -> None:
    made = image(chip, kind)
    elf, hexed, raw = tmp_path / "f.elf", tmp_path / "f.hex", tmp_path / "f.bin"
    elf.write_bytes(made.elf)
    objcopy = f"{BINUTILS[family_of(chip).name]}-objcopy"
    subprocess.run([objcopy, "-O", "ihex", elf, hexed], check=True)
    subprocess.run([objcopy, "-O", "binary", elf, raw], check=True)
    assert from_hex(hexed.read_text()) == made.flash == raw.read_bytes()
    assert from_hex(to_hex(made)) == made.flash


@pytest.mark.few(6)
@pytest.mark.parametrize(("chip", "kind"), EVERY)
def test_sizes_are_those_of_the_size_command(chip: str, kind: CompilerKind, tmp_path: Path) -> None:
    made = image(chip, kind)
    elf = tmp_path / "f.elf"
    elf.write_bytes(made.elf)
    size = f"{BINUTILS[family_of(chip).name]}-size"
    said = subprocess.run([size, elf], check=True, capture_output=True, text=True).stdout
    text, data, bss = (int(word) for word in said.splitlines()[1].split()[:3])
    assert made.flash_used == text + data
    assert made.ram_used == data + bss


@pytest.mark.parametrize("kind", COMPILERS)
def test_the_same_tree_gives_the_same_bytes(kind: CompilerKind) -> None:
    made = image("atmega32u4", kind)
    again = compile_tree(tree("atmega32u4"), "atmega32u4", compiler(kind))
    assert again == made


@pytest.mark.parametrize("kind", COMPILERS)
def test_no_path_of_this_machine_is_in_an_image(kind: CompilerKind) -> None:
    elf = image("atmega32u4", kind).elf
    here = (tempfile.gettempdir(), str(Path.cwd()))
    for path in (b"/tmp", b"/home", b"/root", b"/work", *map(str.encode, here)):
        assert path not in elf


@pytest.mark.few(2)
@pytest.mark.parametrize(("chip", "kind"), in_turn(CHIPS, COMPILERS))
def test_the_makefile_writes_the_same_bytes(chip: str, kind: CompilerKind, tmp_path: Path) -> None:
    folder = write(tree(chip), tmp_path)
    stand_in = zig(tmp_path, BINUTILS[family_of(chip).name])
    call = ["make", f"COMPILER={kind}", f"ZIG={stand_in}", "firmware.hex"]
    caches = {"ZIG_GLOBAL_CACHE_DIR": str(tmp_path), "ZIG_LOCAL_CACHE_DIR": str(tmp_path)}
    path = {"PATH": "/usr/local/bin:/usr/bin:/bin"}
    done = subprocess.run(
        call, cwd=folder, env={**path, **caches}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert (folder / "firmware.hex").read_bytes() == to_hex(image(chip, kind)).encode("ascii")
    assert not list(folder.glob("*.crlf"))


@pytest.mark.parametrize("kind", COMPILERS)
def test_a_tree_that_does_not_compile_comes_back_with_the_compilers_words(
    kind: CompilerKind,
) -> None:
    broken = {**tree("atmega32u4"), "main.c": b"int main(void) { return nonsense; }\n"}
    failed = compile_tree(broken, "atmega32u4", compiler(kind))
    assert isinstance(failed, CompileFailure)
    assert "nonsense" in failed.output
    assert failed.compiler.kind == kind


@pytest.mark.parametrize("kind", COMPILERS)
def test_a_build_leaves_nothing_in_the_working_folder(
    kind: CompilerKind, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    compile_tree(tree("atmega32u4"), "atmega32u4", compiler(kind))
    assert list(tmp_path.iterdir()) == []


def test_an_image_is_measured_against_what_the_controller_leaves_it() -> None:
    made = image("at90usb162", "gcc")
    known = builtin_profile("at90usb162")
    assert known and Budget.of(AVR, known) == Budget(12288, 512 - AVR.stack_bytes)
    assert overruns(made, Budget.of(AVR, known)) == ()
    tight = Budget(made.flash_used - 1, made.ram_used - 1)
    assert overruns(made, tight) == (
        Overrun("flash", made.flash_used, made.flash_used - 1),
        Overrun("RAM", made.ram_used, made.ram_used - 1),
    )
    assert overruns(made, Budget(made.flash_used, made.ram_used)) == ()


def test_bytes_outside_the_flash_are_refused(tmp_path: Path) -> None:
    source, elf = tmp_path / "f.s", tmp_path / "f.elf"
    source.write_text('.section .text\nnop\n.section .elsewhere,"aw",@progbits\n.byte 1\n')
    command = ["avr-gcc", "-mmcu=atmega32u4", "-nostdlib", source, "-o", elf]
    subprocess.run([*command, "-Wl,--section-start=.elsewhere=0x810000"], check=True)
    with pytest.raises(ValueError, match="0x810000, outside the flash"):
        read_image(elf.read_bytes(), AVR)
