"""Controllers that there is no firmware for: they are checked, and a build says so."""

import json
import re

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from tests.examples.shipped import COMPILERS, FOLDER
from tests.texts import good_on

PINS_ONLY = [name for name in builtin_names() if builtin_profile(name).port is None]


@pytest.mark.parametrize("controller", PINS_ONLY)
def test_a_build_for_a_controller_without_firmware_is_a_finding_and_writes_nothing(
    program, controller
):
    program("new", "pad", "--controller", controller)
    assert program("check", "pad.keys").status == 0
    ran = program("build", "pad.keys", "--sources")
    assert ran.status == 1
    assert "error[controller-without-firmware]" in ran.err
    assert f"only the pins of `{controller}` are known" in ran.err
    assert [path.name for path in program.folder.iterdir()] == ["pad.keys"]


@pytest.mark.parametrize("controller", PINS_ONLY)
def test_check_says_that_it_can_only_be_planned_for_and_finished_makes_an_error_of_that(
    program, controller
):
    program("new", "pad", "--controller", controller)
    ran = program("check", "pad.keys")
    last = f"can be planned, not built: no firmware for {controller} yet"
    assert (ran.status, ran.out.splitlines()[-1]) == (0, last)
    told = json.loads(program("check", "pad.keys", "--json").out)
    assert told["without_firmware"] == {"pad.keys": [controller]}
    ran = program("check", "pad.keys", "--finished")
    assert (ran.status, ran.out.splitlines()[-1]) == (1, "1 error")
    assert "error[controller-without-firmware]" in ran.out
    assert "pad.keys:" in ran.out and f"`{controller}`" in ran.out


def test_warnings_are_counted_behind_what_can_be_done(program):
    program("new", "pad", "--controller", "stm32f103c8")
    text = (program.folder / "pad.keys").read_text("utf-8")
    program.write("pad.keys", re.sub(r"debounce .*", "debounce 150 ms", text))
    last = program("check", "pad.keys").out.splitlines()[-1]
    assert last == "can be planned, not built: no firmware for stm32f103c8 yet, 1 warning"


def test_of_several_controllers_one_without_firmware_stops_a_build_for_all(program):
    text = good_on("stick-32u4, stm32f103c8", "PD0, PA0", "PD1, PA1", "PD4, PA2")
    program.write("two.keys", text)
    ran = program("build", "two.keys", "--all", "--sources")
    assert ran.status == 1
    assert ran.err.count("error[") == 1
    assert "`stm32f103c8`" in ran.err
    assert [path.name for path in program.folder.iterdir()] == ["two.keys"]
    last = program("check", "two.keys").out.splitlines()[-1]
    assert last == "ready to build, but not for stm32f103c8: no firmware yet"
    assert program("check", "two.keys", "--finished").status == 1
    one = program("build", "two.keys", "--controller", "stick-32u4", "--sources")
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
