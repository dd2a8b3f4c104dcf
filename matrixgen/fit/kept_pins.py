"""Pins that wires may not have, since lights and knobs have them or will need them."""

from __future__ import annotations

from collections.abc import Container

from matrixgen.boards import Mounted, Profile
from matrixgen.boards.pin import Pin
from matrixgen.model import Keyboard
from matrixgen.record import changed

TAKEN = "is a light's or a knob's"


def with_pins_kept(mounted: Mounted) -> Profile:
    """Return a file's controller without the pins of its lights and knobs, and as many for others.

    Those that are on no pin yet get the dearest that are left: see `Pin.cost`.
    """
    own = mounted.component_pins
    missing = mounted.keyboard.component_pins - len(own)
    return _without(_without(mounted.profile, own), _dearest(mounted.profile, missing, own))


def with_pins_for(profile: Profile, keyboard: Keyboard) -> Profile:
    """Return another controller without as many pins as lights and knobs need, the dearest."""
    return _without(profile, _dearest(profile, keyboard.component_pins, ()))


def without_components(keyboard: Keyboard) -> Keyboard:
    """Return a keyboard without lights and knobs: its matrix alone."""
    plate = changed(keyboard.plate, components=())
    wiring = changed(keyboard.wiring, lights=(), knobs=())
    return changed(keyboard, plate=plate, wiring=wiring)


def _dearest(profile: Profile, many: int, without: Container[str]) -> frozenset[str]:
    able = [pin for pin in profile.usable_pins if pin.output and pin.name not in without]
    return frozenset(pin.name for pin in able[len(able) - max(many, 0) :])


def _without(profile: Profile, names: Container[str]) -> Profile:
    pins = tuple(_taken(pin) if pin.name in names else pin for pin in profile.pins)
    return changed(profile, pins=pins) if pins != profile.pins else profile


def _taken(pin: Pin) -> Pin:
    return changed(pin, use="reserved", duty=TAKEN)
