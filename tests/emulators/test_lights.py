"""Lights on emulated chips: what their pins drive, as the computer and the layers say."""

from __future__ import annotations

import pytest

from matrixgen.families import CompilerKind
from tests.emulators.avr.board import pin_number
from tests.emulators.images import image_of
from tests.emulators.test_line_sets import COMPILERS, plugged_in
from tests.firmware.lights import LIGHTS, pad

CHIPS = ("at90usb162", "atmega32u4", "rp2040")


@pytest.mark.chips_in_turn
@pytest.mark.parametrize("chip", CHIPS)
@pytest.mark.parametrize("kind", COMPILERS)
def test_pins_are_driven_as_lights_are_to_be_lit(chip: str, kind: CompilerKind) -> None:
    mounted = pad(chip)
    lights = {light.name.text: light for light in mounted.keyboard.wiring.lights}
    numbers = {name: pin_number(mounted.pins_of(one)[0].name) for name, one in lights.items()}
    assert len(lights) == len(LIGHTS) or chip == "at90usb162"
    with plugged_in(image_of(mounted, kind), mounted) as (board, host):

        def lit() -> set[str]:
            levels = {name: board.driven(number) for name, number in numbers.items()}
            assert None not in levels.values(), levels  # always driven, never pulled
            high_is_lit = {name: one.side == "ground" for name, one in lights.items()}
            return {name for name, level in levels.items() if level == high_is_lit[name]}

        assert lit() == set()
        for boot in (False, True):
            host.set_protocol(boot=boot)
            for report, expected in (
                (0x1F, {"NumLock", "CapsLock", "ScrollLock", "Compose", "Kana"}),
                (0x02, {"CapsLock"}),
                (0x08, {"Compose"}),
                (0x00, set()),
            ):
                host.set_leds(report)
                host.poll(2)
                assert lit() == expected & set(lights)
        host.set_leds(0x03)
        board.close_key("Hold")
        host.poll(4)
        assert lit() == {"NumLock", "CapsLock", "one"} & set(lights)
        board.close_key("Latch")
        host.poll(4)
        layers = {"one", "two", "both"} & set(lights)
        assert lit() == {"NumLock", "CapsLock"} | layers
        board.suspend()
        board.wait(60)
        assert lit() == set()
        board.resume()
        host.poll(4)
        assert lit() == {"NumLock", "CapsLock"} | layers
        board.open_key("Hold")
        host.poll(12)
        assert lit() == {"NumLock", "CapsLock"} | ({"two"} & set(lights))
