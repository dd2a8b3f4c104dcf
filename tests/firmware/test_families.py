"""Only the port's folder and the Makefile know the chip: everything else is the same bytes."""

from __future__ import annotations

import pytest

from matrixgen.boards import Mounted, builtin_names, builtin_profile
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.source import read_design

CONTROLLERS = [name for name in builtin_names() if builtin_profile(name).port]
"""Those that there is firmware for."""

TEXT = """\
keyboard "Ferry desk"
  controller  {controllers}

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on {pins}  A B
  column c0 on {other_pins}  A
  column c1 on {last_pins}  B

actions
  more = hold layer more

layer base
  B = more

layer more
  A = Ctrl+1
"""


def trees() -> dict[str, dict[str, bytes]]:
    return {name: tree_for(name) for name in CONTROLLERS}


def tree_for(name: str) -> dict[str, bytes]:
    profile = builtin_profile(name)
    assert profile is not None
    r0, c0, c1, *_ = (pin.name for pin in profile.free_pins)
    text = TEXT.format(controllers=name, pins=r0, other_pins=c0, last_pins=c1)
    design, findings = read_design("ferry.keys", text)
    assert design is not None, findings
    mounted = Mounted(design.keyboard, design.mountings[0], profile)
    return firmware_tree(firmware_view(mounted, "ferry.keys"))


@pytest.mark.few(5)
@pytest.mark.parametrize("other", CONTROLLERS)
def test_engine_usb_and_tables_are_the_same_bytes_for_every_controller(other: str) -> None:
    made = trees()
    first = {name: made["atmega32u4"][name] for name in made["atmega32u4"] if _is_common(name)}
    second = {name: made[other][name] for name in made[other] if _is_common(name)}
    assert {name.split("/")[0] for name in first} == {"engine", "usb", "tables", "main.c"}
    assert first == second


def test_the_port_differs_between_families_so_the_test_above_can_fail() -> None:
    made = trees()
    assert made["atmega32u4"]["port/pins.c"] != made["rp2040"]["port/pins.c"]
    assert made["atmega32u4"]["port/pins.c"] != made["at90usb1286"]["port/chip.h"]


def _is_common(name: str) -> bool:
    return not name.startswith("port/") and name not in ("Makefile", "README.md")
