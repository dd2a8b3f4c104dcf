"""What `matrixgen load` does not load, and why, before a byte is sent."""

from __future__ import annotations

import fcntl
import grp
import os
import re
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from tests.load.loader import Chip, OnTerminal
from tests.load.stick_images import hex_of, image_of
from tests.load.table import Table


def refusals(table: Table) -> list[str]:
    return table.load_image()[2].splitlines()


def test_no_board_at_all_is_told(table):
    assert refusals(table)[0] == "matrixgen: no board has appeared"


def test_a_port_that_another_program_has_open_is_told(table):
    port = OnTerminal(Chip())
    table.plug(port)
    other = os.open(port.path, os.O_RDWR | os.O_NOCTTY)
    fcntl.flock(other, fcntl.LOCK_EX)
    assert refusals(table)[0] == f"matrixgen: another program has `{port.path}` open"
    os.close(other)


def test_a_port_that_may_not_be_used_is_told_with_what_to_do_once(table):
    port = OnTerminal(Chip())
    table.plug(port)
    Path(port.path).chmod(0o000)
    user = os.geteuid()
    if user == 0:
        table.folder.chmod(0o777)
        (table.folder / "x.hex").touch(0o666)
        (table.folder / "x.hex").chmod(0o666)
        for parent in (*table.folder.parents,):
            if parent.owner() == "root" and re.search("pytest|matrixgen-tests", str(parent)):
                parent.chmod(0o755)
        os.seteuid(65534)
    try:
        told = refusals(table)
    finally:
        os.seteuid(user)
    assert told[0] == f"matrixgen: you may not use `{port.path}`"
    group = grp.getgrgid(Path(port.path).stat().st_gid).gr_name
    assert f"usermod -aG {group} $USER" in told[1] or group == "root"


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("/dev/ttyNONE", "there is no port `/dev/ttyNONE`"),
        ("x.hex", "`x.hex` is not a serial port\n"),
    ],
)
def test_a_port_that_is_none_is_told(table, path, told):
    status, _, err = table.load_image("--port", path)
    assert (status, err.startswith(f"matrixgen: {told}")) == (2, True), err


BIG = hex_of(image_of(28673))
LOADER = ":107000000102030405060708090A0B0C0D0E0F10F8\n:00000001FF\n"
WHOLE = hex_of(image_of(300))
CUT_OFF = WHOLE.removesuffix(":00000001FF\n")
FAR = ":020000040800F2\n:0100000001FE\n:00000001FF\n"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (BIG, "the image takes 28,673 bytes, but the boot loader begins after 28,672"),
        (LOADER, "the image takes 28,688 bytes"),
        (FAR, "the image takes 134,217,729 bytes"),
        (":0100100001EE\n:00000001FF\n", "the image begins at 0x10"),
        (":00000001FF\n", "the image is empty"),
        ("", "the image is empty"),
        (CUT_OFF, "the image is cut off: its last line is not the end record `:00000001FF`"),
        (CUT_OFF[:-20], "it is not an Intel HEX file"),
        (WHOLE + CUT_OFF, "the image goes on after its end record"),
        (WHOLE.lower().replace("\n", "\r\n\r\n") + "x", "the image goes on after"),
        ("nonsense", "it is not an Intel HEX file"),
        (":0100000001FF\n", "it is not an Intel HEX file"),
        (b"\xff\xfe", "it is not an Intel HEX file: byte 1 is 0xFF, which is not a character"),
        (":01\N{MICRO SIGN}", "it is not an Intel HEX file: byte 4 is 0xC2"),
    ],
)
def test_an_image_that_cannot_be_loaded_is_refused_before_a_byte_is_sent(table, text, told):
    chip = table.plugged(Chip())
    image = table.write("x.hex", text)
    status, _, err = table.load(image, "--controller", "stick-32u4")
    assert (status, err.startswith(f"matrixgen: {told}")) == (2, True), err
    assert not chip.commands


def test_the_controller_of_an_image_has_to_be_known(table):
    image = table.write("x.hex", hex_of(image_of(300)))
    assert "name it with --controller" in table.load(image)[2]
    assert "no controller is called `stick`" in table.load(image, "--controller", "stick")[2]
    assert "only the pins of `ch552t`" in table.load(image, "--controller", "ch552t")[2]
    assert "not known how" in table.load(image, "--controller", "board-32u4-25")[2]
    assert "not as `x.hex`" in table.load(image, "--controller", "rp2040")[2]
    assert "`no.hex` cannot be read" in table.load("no.hex", "--controller", "rp2040")[2]
    assert "nothing to load is named" in table.load()[2]


def test_every_controller_that_builds_says_how_it_is_loaded_or_that_it_is_not_known():
    said = {}
    for name in builtin_names():
        profile = builtin_profile(name)
        assert profile is not None
        if profile.port:
            said.setdefault(profile.boot_loader_speaks, set()).add(profile.name)
    assert said == {
        "AVR109": {"stick-32u4", "stick-32u4-3v3"},
        "UF2": {"rp2040", "rp2040-40pin"},
        "DFU": {"at90usb1286", "at90usb162", "at90usb646", "atmega16u4", "atmega32u4"},
        None: {"board-32u4-25"},
    }
