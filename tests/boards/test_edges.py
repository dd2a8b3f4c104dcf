"""The edges of the built-in profiles: against packages that others describe, and in themselves."""

import re

import pytest

from matrixgen.boards import Profile, builtin_names, builtin_profile
from matrixgen.boards.edge import ROUND_THE_BOARD
from tests.boards.chip_facts import PACKAGES, pads, table

NAMES = builtin_names()
PADS = {
    "at90usb1286": 64,
    "at90usb162": 32,
    "at90usb646": 64,
    "atmega16u4": 44,
    "atmega32u2": 32,
    "atmega32u4": 44,
    "ch552t": 20,
    "esp32-s2": 56,
    "esp32-s3": 56,
    "nrf52840": 73,
    "rp2040": 56,
    "rp2350a": 60,
    "samd21g18a": 48,
    "stm32f072cb": 48,
    "stm32f103c8": 48,
    "stm32f401cc": 48,
    "stm32f411ce": 48,
}
"""How many pads a chip's package has, by its name: TQFP64, QFN56 and so on."""

INSIDE = {"board-32u4-25": {"PE6"}}
"""Usable pins that a board brings out, but not at an edge."""

NO_PINS = """
    GND AGND GNDANA VSS VSSA VSS_PA UGND RAW VBUS VSYS VBAT VCC AVCC UVCC UCAP AREF VDD VDDA VDDH
    VDDANA VDDCORE VDDIN VDDIO VDDIO2 VCAP1 IOVDD DVDD ADC_AVDD ADC_VREF USB_VDD USB_OTP_VDD V33
    VREF+ QSPI_IOVDD VREG_VIN VREG_VOUT VREG_AVDD VREG_PGND VREG_LX VREG_FB VDD3P3 VDD3P3_RTC 3V3_EN
    VDD3P3_RTC_IO VDD3P3_CPU VDD_SPI DCC DCCH DECUSB DEC1 DEC2 DEC3 DEC4 DEC5 DEC6 TESTEN 5V 3V3
"""
"""What stands along edges and is no pin of a profile: supplies and the like."""


def walk(profile: Profile) -> list[str]:
    """What stands along the edges, counter-clockwise: a package's numbers from 1 up."""
    sides = {edge.side: edge.names for edge in profile.edges}
    turned = {"right", "top"}
    return [
        name
        for side in ROUND_THE_BOARD
        for name in sides.get(side, ())[:: -1 if side in turned else 1]
    ]


@pytest.mark.parametrize("name", NAMES)
def test_every_usable_pin_stands_at_one_place_along_the_edges(name):
    profile = builtin_profile(name)
    places = walk(profile)
    usable = [pin.name for pin in profile.usable_pins]
    missing = {pin for pin in usable if pin not in places}
    assert missing == INSIDE.get(name, set())
    assert len([word for word in places if word in usable]) == len(usable) - len(missing)


@pytest.mark.parametrize("name", NAMES)
def test_every_word_along_the_edges_is_a_pin_or_a_supply(name):
    profile = builtin_profile(name)
    assert {word for word in walk(profile) if not profile.pin(word)} <= set(NO_PINS.split())


@pytest.mark.parametrize("name", NAMES)
def test_a_pin_that_is_not_brought_out_stands_at_no_edge(name):
    profile = builtin_profile(name)
    hidden = {pin.name for pin in profile.pins if "not brought out" in (pin.duty or "")}
    assert not hidden & set(walk(profile))


@pytest.mark.parametrize(("name", "count"), PADS.items())
def test_a_package_has_its_pads_on_its_sides(name, count):
    profile = builtin_profile(name)
    assert len(walk(profile)) == count
    if name != "nrf52840":  # its pads stand in two rings
        assert {len(edge.names) for edge in profile.edges} == {count // len(profile.edges)}


@pytest.mark.parametrize("chip", [chip for chip in PACKAGES if chip.startswith("STM32")])
def test_the_pads_stand_in_the_order_of_their_numbers_in_modm_devices(chip):
    on_pad = pads(chip)
    assert walk(builtin_profile(chip.lower())) == [on_pad[f"{n}"] for n in range(1, 49)]


def test_the_pads_of_the_ch552t_stand_in_the_order_of_their_numbers_in_its_manual():
    places = walk(builtin_profile("ch552t"))
    rows = {row["pin"]: int(row["package_pin"]) for row in table() if row["mcu"] == "CH552T"}
    assert {word: places.index(word) + 1 for word in rows} == rows


def side(place: str) -> str:
    """The side that a pad of aQFN73 is nearest to: two rings, rows A to AD, columns 1 to 24."""
    row, column = re.fullmatch(r"([A-Z]+)(\d+)", place).groups()
    by_row = {"A": "top", "AD": "bottom"}, {"B": "top", "AC": "bottom"}
    by_column = {"1": "left", "24": "right"}, {"2": "left", "23": "right"}
    rings = zip(by_row, by_column, strict=True)
    return next(found for rows, columns in rings if (found := rows.get(row) or columns.get(column)))


def test_the_pads_of_the_nrf52840_stand_on_their_sides_in_modm_devices():
    expected = {"left": set(), "bottom": set(), "right": set(), "top": set()}
    for place, name in pads("nRF52840").items():
        if place != "Die pad":
            expected[side(place)].add(name)
    profile = builtin_profile("nrf52840")
    assert {edge.side: set(edge.names) for edge in profile.edges} == expected


def test_the_pads_of_one_side_of_the_nrf52840_stand_in_the_order_of_their_columns():
    places = {name: place for place, name in pads("nRF52840").items()}
    for edge in builtin_profile("nrf52840").edges:
        if edge.side in ("top", "bottom"):
            once = [places[name] for name in edge.names if name not in ("VDD", "VSS")]
            columns = [int(place.lstrip("ABCD")) for place in once]
            assert columns == sorted(columns)


def test_the_pins_of_the_stick_are_walked_down_the_left_edge_and_up_the_right_one():
    names = " ".join(pin.name for pin in builtin_profile("stick-32u4").pins_round_the_board)
    left, right = "PD3 PD2 PD1 PD0 PD4 PC6 PD7 PE6 PB4 PB5", "PB6 PB2 PB3 PB1 PF7 PF6 PF5 PF4"
    assert names == f"{left} {right}"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("stick-32u4", "stick-32u4-3v3"),
        ("rp2040-40pin", "rp2350-40pin"),
        ("board-f401", "board-f411"),
        ("at90usb162", "atmega32u2"),
    ],
)
def test_two_boards_of_the_same_outline_have_the_same_edges_and_pins(one, other):
    first, second = builtin_profile(one), builtin_profile(other)
    assert first.edges == second.edges
    assert first.pins == second.pins
