"""Every example built for AVR controllers that it does not name, and one of them tried at 8 MHz.

simavr has no AT90USB646 or AT90USB1286; of those it can only be said that their images are built
and fit. A clock of 8 MHz halves all that the firmware does in a time, and its PLL is set otherwise.
"""

from __future__ import annotations

import pytest

from matrixgen.boards import Profile, builtin_profile
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import AVR, CompilerKind
from matrixgen.record import changed
from matrixgen.toolchain import Budget, Image, overruns
from tests.amounts import IS_LONG
from tests.emulators import images
from tests.emulators.avr.board import board
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import COMPILERS, NAMES, Example, on_controller

SLOW = 8_000_000
CONTROLLERS = ("stick-32u4-3v3", "at90usb646", "at90usb1286", "at90usb1286 at 8 MHz")


def controller(words: str) -> Profile:
    name, *slow = words.split(" at ")
    found = builtin_profile(name)
    assert found is not None
    return changed(found, clock_hz=SLOW) if slow else found


FITTING = [
    (name, words)
    for name in NAMES
    for words in CONTROLLERS
    if on_controller(name, controller(words))
]

FITTING_BUILDS = [
    (name, words, kind)
    for name, words in FITTING
    for kind in COMPILERS
    if IS_LONG or (NAMES.index(name) + CONTROLLERS.index(words)) % 4 == COMPILERS.index(kind)
]
"""Each controller with each compiler, each example too with one, and in the long run all three."""


def built(shipped: Example, kind: CompilerKind) -> Image:
    tree = firmware_tree(firmware_view(shipped.mounted, str(shipped.path)))
    return images.compiled(tree, shipped.profile, kind)


def test_the_large_chips_take_every_example_and_the_small_stick_some() -> None:
    taken = {words: [name for name, on in FITTING if on == words] for words in CONTROLLERS}
    assert taken["at90usb646"] == taken["at90usb1286"] == list(NAMES)
    assert len(taken["stick-32u4-3v3"]) >= 3


@pytest.mark.few(4)
@pytest.mark.parametrize(
    ("name", "words", "kind"), FITTING_BUILDS, ids=lambda part: part.replace(" ", "-")
)
def test_an_example_is_built_and_fits(name: str, words: str, kind: CompilerKind) -> None:
    shipped = on_controller(name, controller(words))
    assert shipped is not None
    assert overruns(built(shipped, kind), Budget.of(AVR, shipped.profile)) == ()


@pytest.mark.few(2)
@pytest.mark.parametrize("kind", COMPILERS)
@pytest.mark.parametrize("words", ["stick-32u4-3v3", "at90usb162 at 8 MHz"])
def test_at_8_mhz_a_keyboard_types_sleeps_and_wakes(words: str, kind: CompilerKind) -> None:
    shipped = on_controller("heron-12", controller(words))
    assert shipped is not None
    with board(built(shipped, kind), shipped.mounted) as running:
        host = UsbHost(running)
        host.enumerate()
        host.set_idle(0)
        for key in (key.name.text for key in shipped.keyboard.keys[:4]):
            running.close_key(key)
            assert len(host.poll(4)) == 1, key
            running.open_key(key)
            assert len(host.poll(30)) == 1, key
        running.suspend()
        running.wait(20)
        before, slept = running.cycles, running.slept
        running.wait(300)
        assert (running.slept - slept) / (running.cycles - before) > 0.97
        running.resume()
        running.close_key(shipped.keyboard.keys[0].name.text)
        assert len(host.poll(4)) == 1
        assert (running.attached, running.frozen_uses) == (1, 0)
