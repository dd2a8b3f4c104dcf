"""Controllers that there is no firmware for: they are checked, and a build says so."""

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from tests.examples.shipped import COMPILERS, FOLDER

PINS_ONLY = [name for name in builtin_names() if builtin_profile(name).port is None]


@pytest.mark.parametrize("controller", PINS_ONLY)
def test_a_build_for_a_controller_without_firmware_is_a_finding_and_writes_nothing(
    program, controller
):
    program("new", "pad", "--controller", controller)
    assert program("check", "pad.keys").status == 0
    ran = program("build", "pad.keys", "--compiler", "none")
    assert ran.status == 1
    assert "error[controller-without-firmware]" in ran.err
    assert f"only the pins of `{controller}` are known" in ran.err
    assert [path.name for path in program.folder.iterdir()] == ["pad.keys"]


def test_of_several_controllers_one_without_firmware_stops_a_build_for_all(program):
    text = """\
keyboard "Two"
  controller stick-32u4, stm32f103c8

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0, PA0  A B
  column c0 on PD1, PA1  A
  column c1 on PD4, PA2  B
"""
    program.write("two.keys", text)
    ran = program("build", "two.keys", "--all", "--compiler", "none")
    assert ran.status == 1
    assert ran.err.count("error[") == 1
    assert "`stm32f103c8`" in ran.err
    assert [path.name for path in program.folder.iterdir()] == ["two.keys"]
    one = program("build", "two.keys", "--controller", "stick-32u4", "--compiler", "none")
    assert one.status == 0


@pytest.mark.parametrize("compiler", COMPILERS)
def test_an_example_moved_onto_the_stick_of_three_volts_builds(program, compiler):
    moved = (FOLDER / "godwit-46" / "godwit-46.keys").read_text("utf-8")
    assert "controller stick-32u4\n" in moved
    moved = moved.replace("controller stick-32u4\n", "controller stick-32u4-3v3\n")
    program.write("moved.keys", moved)
    ran = program("build", "moved.keys", "--compiler", compiler)
    assert ran.status == 0, ran.err
    assert (program.folder / "moved" / "moved.hex").stat().st_size > 0
    board = (program.folder / "moved" / "firmware" / "port" / "board.h").read_text("utf-8")
    assert "#define CLOCK_MHZ 8 " in board
