"""The table of what each chip family's firmware can do."""

import json

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.boards.abilities import FAMILIES, abilities, has_boot_loader
from matrixgen.model.record import changed
from matrixgen.resources import resource


def test_every_family_of_the_schema_has_a_row():
    schema = json.loads((resource("boards") / "profile.schema.json").read_text(encoding="utf-8"))
    assert set(FAMILIES) == set(schema["properties"]["family"]["enum"])


@pytest.mark.parametrize("name", builtin_names())
def test_every_builtin_controller_has_a_boot_loader(name):
    assert has_boot_loader(builtin_profile(name))


def test_a_chip_without_a_boot_rom_has_a_boot_loader_only_in_its_flash():
    bare = changed(builtin_profile("atmega32u4"), boot_loader_bytes=0)
    assert not has_boot_loader(bare)


def test_the_firmware_can_tell_two_resets_on_the_rp2040_alone():
    able = [name for name in builtin_names() if abilities(builtin_profile(name)).double_reset]
    assert able == ["rp2040", "rp2040-40pin"]
