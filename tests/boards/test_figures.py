"""The built-in profiles' figures: worked out anew from what the makers' documents give."""

import pytest

from matrixgen.boards import PullUp, builtin_names, builtin_profile

NAMES = builtin_names()

LEVELS = [
    # Atmel 7766 table 29-1
    ("atmega32u4 stick-32u4 stick-32u4-3v3 board-32u4-25 atmega16u4", (0.2, -0.1), (0.2, 0.9)),
    ("at90usb162 atmega32u2", (0.2, 0), (0.6, 0)),  # Atmel 7707D 26.2, 7799D 26.2
    ("stm32f103c8 board-f103", (0.35, 0), (0.65, 0)),  # ST 13587 rev. 15 table 35
    ("stm32f072cb", (0.3, 0), (0.7, 0)),  # ST DS9773 rev. 4 table 46, of a sibling
    # ST DS024738 table 54 and DS026289 table 53
    ("stm32f401cc stm32f411ce board-f401 board-f411", (0.3, 0), (0.7, 0)),
    ("samd21g18a", (0.3, 0), (0.55, 0)),  # SAM D21/DA1 data sheet 37.9.1, from 2.7 V up
    ("nrf52840", (0.3, 0), (0.7, 0)),  # from memory
    ("esp32-s2 esp32-s3", (0.25, 0), (0.75, 0)),  # ESP32 datasheet table 13, of a sibling
    ("ch552t", (0, 1.2), (0, 2.4)),  # manual V1F 18.2
]
"""VIL max and VIH min of some profiles: a share of the supply, and volts more."""


@pytest.mark.parametrize(("names", "low", "high"), LEVELS)
def test_levels_are_the_documents_shares_of_the_supply(names, low, high):
    for profile in map(builtin_profile, names.split()):
        expected = [share * profile.supply_volts + more for share, more in (low, high)]
        given = [profile.input_low_volts, profile.input_high_volts]
        assert given == pytest.approx(expected), profile.name


@pytest.mark.parametrize("name", NAMES)
def test_every_builtin_profile_says_how_strongly_its_pins_pull_low(name):
    profile = builtin_profile(name)
    assert {"output_low", "edges"} <= {what for what, _ in profile.sources}
    ampere = profile.sink_ampere or profile.drive_ampere
    assert ampere is not None
    assert ampere <= (profile.total_sink_ampere or ampere)


@pytest.mark.parametrize("name", ["rp2040", "rp2040-40pin", "rp2350a", "samd21g18a"])
def test_a_drive_strength_that_the_firmware_chooses_is_no_limit_of_a_pin(name):
    """RP2040 datasheet, "Digital IO characteristics": 2, 4, 8 or 12 mA, as the pad is set."""
    profile = builtin_profile(name)
    assert profile.sink_ampere is None and profile.drive_ampere


@pytest.mark.parametrize(("names", "low", "high"), LEVELS)
def test_levels_follow_the_supply_as_the_documents_say(names, low, high):
    for profile in map(builtin_profile, names.split()):
        for supply in profile.supplies:
            there = profile.at_supply(supply)
            expected = [share * supply + more for share, more in (low, high)]
            given = [there.input_low_volts, there.input_high_volts]
            if low[0] or not profile.input_low_per_volt:
                assert given == pytest.approx(expected), (profile.name, supply)


@pytest.mark.parametrize("name", NAMES)
def test_the_supply_has_a_range_and_who_says_so(name):
    """USB 2.0 section 7.2.2 for 5 V, two regulators' datasheets (2 %) for the others."""
    profile = builtin_profile(name)
    least, usual, most = profile.supplies
    assert usual == profile.supply_volts
    if usual == 5.0:
        assert (least, most) == (4.05 if name == "stick-32u4" else 4.35, 5.25)
    else:
        assert (least, most) == pytest.approx((0.98 * usual, 1.02 * usual))
    assert profile.supply.source


@pytest.mark.parametrize("name", [n for n in NAMES if builtin_profile(n).family == "avr"])
def test_an_avr_needs_4_5_volts_for_16_megahertz_and_2_7_for_8(name):
    """Atmel 7766J figure 29-2."""
    profile = builtin_profile(name)
    assert profile.clock_volts == {16_000_000: 4.5, 8_000_000: 2.7}[profile.clock_hz]
    assert "clock" in dict(profile.sources)


VOL = {  # volts at amperes, the test point of the document that the profile names
    "stick-32u4": (0.7, 0.01),
    "stick-32u4-3v3": (0.5, 0.005),
    "rp2040": (0.5, 0.004),
    "stm32f103c8": (0.4, 0.008),
    "board-f411": (0.4, 0.008),
    "samd21g18a": (0.2 * 3.3, 0.0025),
    "nrf52840": (0.4, 0.006),
    "ch552t": (0.4, 0.012),
}


@pytest.mark.parametrize(("name", "point"), VOL.items())
def test_the_resistance_of_a_low_pin_is_volts_by_amperes_at_the_test_point(name, point):
    volts, ampere = point
    assert builtin_profile(name).output_low_ohm == pytest.approx(volts / ampere, rel=0.01)


def test_the_pull_up_of_the_ch552t_is_its_current_at_its_supply():
    profile = builtin_profile("ch552t")
    most, least = profile.supply_volts / 35e-6, profile.supply_volts / 140e-6  # manual V1F 18.2
    assert profile.pull_up_ohm_max == pytest.approx(most, rel=0.001)
    assert profile.pull_up_ohm_min == pytest.approx(least, rel=0.001)


@pytest.mark.parametrize(
    "name", [name for name in NAMES if builtin_profile(name).family[:5] == "stm32"]
)
def test_pins_of_the_backup_domain_sink_three_milliamperes_and_others_25(name):
    profile = builtin_profile(name)
    limits = {pin.name: profile.sink_ampere_of(pin) for pin in profile.usable_pins}
    weak = {"PC13", "PC14", "PC15"}  # ST: notes of the pin tables
    assert {pin for pin, limit in limits.items() if limit == 0.003} == weak
    assert {limit for pin, limit in limits.items() if pin not in weak} == {0.025}


@pytest.mark.parametrize("name", ["stm32f401cc", "stm32f411ce", "board-f401", "board-f411"])
def test_one_pin_of_the_stm32f4_has_a_stronger_pull_up(name):
    profile = builtin_profile(name)
    pull_ups = {pin.name: profile.pull_up_of(pin) for pin in profile.usable_pins}
    assert pull_ups.pop("PA10") == PullUp(7000, 14000)  # DS024738 table 54, DS026289 table 53
    assert set(pull_ups.values()) == {PullUp(30000, 50000)}


def test_the_stick_of_three_volts_differs_from_the_other_in_supply_and_clock_alone():
    slow, fast = builtin_profile("stick-32u4-3v3"), builtin_profile("stick-32u4")
    assert (slow.supply_volts, slow.clock_hz) == (3.3, 8_000_000)
    same = ("chip", "flash_bytes", "ram_bytes", "boot_loader_bytes", "pins", "edges", "port")
    assert [name for name in same if getattr(slow, name) != getattr(fast, name)] == []
