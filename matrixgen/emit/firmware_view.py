"""A keyboard and a controller as the firmware's templates see them: plain numbers and comments."""

from __future__ import annotations

import re

from matrixgen.boards import Mounted, Pin
from matrixgen.circuit.knob_times import KnobTimes
from matrixgen.circuit.settling import Settling
from matrixgen.emit.action_views import (
    action_views,
    first_together,
    layer_views,
    number_actions,
)
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.knob_view import knob_views, with_knobs_in_order
from matrixgen.emit.light_views import lights_view
from matrixgen.emit.line_views import line_views, pulled_up
from matrixgen.emit.media_view import media_table
from matrixgen.emit.pointer_view import pointer_view
from matrixgen.emit.timed_views import timed_view
from matrixgen.emit.together_view import together_view
from matrixgen.emit.turn_view import turn_view
from matrixgen.emit.with_view import with_views
from matrixgen.model import Keyboard, Matrix, matrix_of, starts_boot_loader


def firmware_view(mounted: Mounted, source_path: str, port: str | None = None) -> FirmwareView:
    """Return the view of a keyboard that the rules have passed.

    `source_path` is the file it was read from. `port` overrides the profile's own folder, so that
    the tests can build the same keyboard for the host.
    """
    mounted = with_knobs_in_order(mounted)
    keyboard, profile = mounted.keyboard, mounted.profile
    matrix, numbers = matrix_of(keyboard), number_actions(keyboard)
    settings = keyboard.effective
    family = profile.family_record
    media, settle_us = media_table(keyboard), Settling(mounted, matrix).firmware_us
    drives = line_views(matrix.drives, mounted, family)
    senses = line_views(matrix.senses, mounted, family)
    knobs = knob_views(mounted, family)
    held = {word.text for word in keyboard.boot_loader.hold}
    contacts = [contact for knob in knobs for contact in knob.contacts]
    return FirmwareView(
        product=keyboard.identity.product,
        maker=settings.maker,
        vendor_id=settings.vendor_id,
        product_id=settings.product_id,
        drives=drives,
        senses=senses,
        pulled_up=pulled_up((*drives, *senses, *contacts), _left_free(mounted), family),
        key_names=keyboard.turned_or_pressed,
        plate_rows=_plate_rows(keyboard),
        key_at=_key_at(keyboard, matrix),
        actions=action_views(keyboard, numbers, media.numbers),
        layers=layer_views(keyboard, numbers),
        media=media,
        pointer=pointer_view(keyboard),
        hold=tuple(one for one in matrix.contacts if one.key in held),
        has_boot_loader_key=any(map(starts_boot_loader, numbers)),
        double_reset=keyboard.boot_loader.double_reset is not None,
        knobs=knobs,
        debounce_ms=settings.debounce_ms,
        timed=timed_view(keyboard, numbers),
        in_turn=turn_view(keyboard, numbers),
        with_modifiers=with_views(numbers),
        lights=lights_view(mounted, family),
        together=together_view(keyboard, numbers, first_together(numbers)),
        settle_us=settle_us,
        scan_is_long=KnobTimes(mounted, matrix, settle_us).scan_is_long,
        source_name=re.split(r"[/\\]", source_path)[-1],
        port=port or profile.port or profile.family,
        profile=profile,
    )


def _left_free(mounted: Mounted) -> list[Pin]:
    """Return the free pins of the controller, without those that a light drives."""
    driven = {pin for light in mounted.keyboard.wiring.lights for pin in mounted.pins_of(light)}
    return [pin for pin in mounted.profile.free_pins if pin not in driven]


def _plate_rows(keyboard: Keyboard) -> tuple[tuple[int, ...], ...]:
    numbers = iter(range(len(keyboard.turned_or_pressed)))
    rows = (*(line.keys for line in keyboard.plate.lines), *(one.steps for one in keyboard.knobs))
    return tuple(tuple(next(numbers) for _ in row) for row in rows)


def _key_at(keyboard: Keyboard, matrix: Matrix) -> tuple[tuple[int | None, ...], ...]:
    number_of = {key.name.text: number for number, key in enumerate(keyboard.keys)}
    found = {(one.drive, one.sense): number_of[one.key] for one in matrix.contacts}
    return tuple(
        tuple(found.get((drive, sense)) for sense in range(len(matrix.senses)))
        for drive in range(len(matrix.drives))
    )
