"""A user's own profile: how its boot loader is entered, parts around the chip, parts on a pin."""

import pytest

from matrixgen.boards import Around, BootLoaderEntry, builtin_names, builtin_profile
from tests.boards.own_files import Change, good, is_told, load, setting, sound, without

JUMP = {"kind": "jump", "address": 12288, "source": "me"}
MARK = {"kind": "watchdog mark", "address": 256, "value": 1, "source": "me"}
BUTTON = {"kind": "reset button", "source": "me"}


def entry(**changes: object) -> dict[str, object]:
    return JUMP | changes


@pytest.mark.parametrize(
    "given", [JUMP, entry(address=16382), MARK, MARK | {"address": 766}, BUTTON]
)
def test_an_entry_that_can_lead_there_is_read(tmp_path, given):
    profile = sound(tmp_path, good() | {"boot_loader_entry": given})
    numbers = (given.get("address"), given.get("value"))
    assert profile.boot_loader_entry == BootLoaderEntry(given["kind"], *numbers, "me")


def test_a_profile_need_not_say_how_its_boot_loader_is_entered(tmp_path):
    document = good()
    del document["boot_loader_entry"]
    assert sound(tmp_path, document).boot_loader_entry is None


def having(given: dict[str, object]) -> Change:
    return setting(given, "boot_loader_entry")


def two(*changes: Change) -> Change:
    return lambda document: [change(document) for change in changes]


MISTAKES = [
    (having(entry(kind="button")), "`kind` is not one of `jump`", '"button"'),
    (having({"kind": "jump", "source": "me"}), "`boot_loader_entry` lacks `address`", "{"),
    (having(JUMP | {"kind": "watchdog mark"}), "`boot_loader_entry` lacks `value`", "{"),
    (having({"kind": "reset button"}), "`boot_loader_entry` lacks `source`", "{"),
    (having(entry(value=70000)), "`value` is more than 65535", "70000"),
    (having(entry(address=12286)), "12286 is not an address of the boot loader", "12286"),
    (having(entry(address=16384)), "16384 is not an address of the boot loader", "16384"),
    (having(entry(address=12289)), "12289 is odd", "12289"),
    (having(MARK | {"address": 255}), "a mark of two bytes at 255 is not in RAM", "255"),
    (having(MARK | {"address": 767}), "a mark of two bytes at 767 is not in RAM", "767"),
    (setting(0, "boot_loader_bytes"), "there is no boot loader", '"boot_loader_entry"'),
    (
        two(setting("rp2040", "family"), setting("rp2040", "port")),
        "the family `rp2040` has its boot loader in ROM",
        '"boot_loader_entry"',
    ),
    (setting("UF2", "boot_loader_speaks"), "images of the family `avr` are `.hex` files", '"UF2"'),
    (setting("FTP", "boot_loader_speaks"), "`boot_loader_speaks` is not one of `AVR109`", '"FTP"'),
    (setting([], "around"), "`around` is empty", "[]"),
    (setting([{"part": "x"}], "around"), "the part lacks `where`", "{"),
    (setting("light", "pins", 0, "part"), "`part` is not one of `light to ground`", '"light"'),
    (setting("light to ground", "pins", 0, "part"), "`use` is not one of `shared`", '"free"'),
]


@pytest.mark.parametrize(("change", "message", "letters"), MISTAKES)
def test_each_mistake_is_told_at_its_place(tmp_path, change, message, letters):
    is_told(tmp_path, change, message, letters)


def test_parts_around_a_chip_are_read_as_they_stand(tmp_path):
    parts = [{"part": "10 kohm", "where": "a to b", "why": "sparks", "source": "me"}]
    assert sound(tmp_path, good() | {"around": parts}).around == (
        Around("10 kohm", "a to b", "sparks", "me"),
    )
    document = good()
    without("around")(document)
    assert load(tmp_path, document)[0].around == ()


def bare_chips() -> list[str]:
    profiles = [builtin_profile(name) for name in builtin_names()]
    return [one.name for one in profiles if one.port and one.chip.lower() == one.name]


def test_every_bare_chip_that_firmware_is_built_for_says_what_it_needs_around_it():
    assert len(bare_chips()) == 6
    for name in bare_chips():
        profile = builtin_profile(name)
        where = " ".join(part.where for part in profile.around)
        assert "crystal" in " ".join(part.part for part in profile.around)
        for pin in (pin.name for pin in profile.pins if pin.name in ("UCAP", "VBUS", "XTAL1")):
            assert pin in where, (name, pin)


def test_a_board_has_the_parts_itself():
    for name in builtin_names():
        profile = builtin_profile(name)
        assert not profile.around or profile.chip.lower() == name


def test_every_avr_that_firmware_is_built_for_says_how_its_boot_loader_is_entered():
    for name in builtin_names():
        profile = builtin_profile(name)
        if profile.port == "avr":
            assert profile.boot_loader_entry is not None, name


@pytest.mark.parametrize("name", builtin_names())
def test_a_pin_with_a_part_on_it_is_offered_last(name):
    parts = [pin.part is not None for pin in builtin_profile(name).usable_pins]
    assert parts == sorted(parts)


def test_a_pin_with_a_light_is_the_last_of_its_board():
    for name, pin in (("board-32u4-25", "PD6"), ("board-f103", "PC13")):
        assert builtin_profile(name).usable_pins[-1].name == pin
