"""The knobs of a keyboard as the firmware's templates see them."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.boards import Mounted, Pin
from matrixgen.emit.line_views import PinView
from matrixgen.families import Family
from matrixgen.model import Knob
from matrixgen.record import Record, changed


class KnobView(Record, kw_only=True):
    """A knob, and what layers call its steps."""

    name: str
    states: int
    steps: tuple[str, str]
    contacts: tuple[PinView, ...]


def with_knobs_in_order(mounted: Mounted) -> Mounted:
    """Return a keyboard whose knobs come in the order of their pins.

    That of their statements, which says nothing, makes no other image so.
    """
    keyboard = mounted.keyboard
    if len(keyboard.wiring.knobs) < 2:
        return mounted
    place_of = {pin.name: place for place, pin in enumerate(mounted.profile.pins)}
    places = {one.called: _places(mounted, one, place_of) for one in keyboard.wiring.knobs}
    knobs = tuple(sorted(keyboard.wiring.knobs, key=lambda one: places[one.called]))
    wiring = changed(keyboard.wiring, knobs=knobs)
    return changed(mounted, keyboard=changed(keyboard, wiring=wiring))


def _places(mounted: Mounted, knob: Knob, place_of: Mapping[str, int]) -> tuple[int, ...]:
    return tuple(place_of[pin.name] for pin in mounted.pins_of(knob))


def knob_views(mounted: Mounted, family: Family | None) -> tuple[KnobView, ...]:
    """Return the knobs in the order of their numbers; without a family, contacts have no port."""
    return tuple(
        KnobView(
            name=knob.name.text,
            states=knob.states,
            steps=knob.steps,
            contacts=_contacts(number, mounted.pins_of(knob), family),
        )
        for number, knob in enumerate(mounted.keyboard.knobs)
    )


def _contacts(number: int, pins: tuple[Pin, ...], family: Family | None) -> tuple[PinView, ...]:
    """Return A and B; none where there is no family, or no pin is known."""
    found = [(pin, family.place_of(pin.name)) for pin in pins] if family else []
    return tuple(
        PinView(number=2 * number + contact, pin=pin.name, port=place.port, bit=place.bit)
        for contact, (pin, place) in enumerate(found)
        if place is not None
    )
