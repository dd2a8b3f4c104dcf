"""A file as facts, one a line, with the work that changing each would be.

What compares texts line by line, as `git log -p` does, then compares what two files say.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model.design import Design
from matrixgen.model.layers import Layer, NamedAction
from matrixgen.model.plate import Key, Plate
from matrixgen.model.prose import spaced
from matrixgen.model.wiring import Wiring

SOLDER, REFLASH, COSMETIC = "[solder]", "[reflash]", "[cosmetic]"
"""The work: with the iron, at the computer, none."""


def fact_lines(design: Design) -> list[str]:
    """Return the facts of a file, those of the same thing beside each other."""
    keyboard = design.keyboard
    return [
        *_settings(design),
        *(f"{SOLDER} key {_key(key)}" for key in sorted(keyboard.keys, key=_name)),
        *_places(keyboard.plate),
        *_wiring(keyboard.wiring),
        *_wires(design),
        *sorted(_action(design, action) for action in keyboard.actions),
        f"{REFLASH} layers: {', '.join(layer.name.text for layer in keyboard.layers)}",
        *(line for layer in keyboard.layers for line in _cells(layer)),
    ]


def _name(key: Key) -> str:
    return key.name.text


def _settings(design: Design) -> Iterator[str]:
    keyboard = design.keyboard
    identity, loader = keyboard.identity, keyboard.boot_loader
    controllers = ", ".join(word.text for word in design.controllers)
    yield f"{SOLDER} controller: {controllers or 'none yet'}"
    yield f"{REFLASH} name: {identity.product or 'none yet'}"
    yield f"{REFLASH} debounce: {keyboard.debounce_ms.value:g} ms"
    if keyboard.press_ms:
        yield f"{REFLASH} press: {keyboard.press_ms.value:g} ms"
    if keyboard.once_ms:
        yield f"{REFLASH} once lasts: {keyboard.once_ms.value:g} ms"
    if keyboard.remember_base:
        yield f"{REFLASH} base: remembered"
    if identity.maker:
        yield f"{REFLASH} maker: {identity.maker}"
    if identity.vendor_id is not None:
        yield f"{REFLASH} usb: {identity.vendor_id:04x}:{identity.product_id or 0:04x}"
    if loader.hold:
        keys = " ".join(sorted(word.text for word in loader.hold))
        yield f"{REFLASH} boot loader by keys: {keys}"
    if loader.double_reset:
        yield f"{REFLASH} boot loader by double reset"
    for one in design.allowances:
        places = " ".join(sorted(word.text for word in one.places))
        yield f"{COSMETIC} allowed: {one.slug} {places}".rstrip()


def _key(key: Key) -> str:
    turned = f", turned {key.turned:g} about {key.pivot_x:g}, {key.pivot_y:g}" if key.turned else ""
    return f"{key.name}: {key.width:g} x {key.height:g} at {key.x:g}, {key.y:g}{turned}"


def _places(plate: Plate) -> Iterator[str]:
    for x, y in sorted({(hole.x, hole.y) for hole in plate.holes}):
        yield f"{SOLDER} hole: at {x:g}, {y:g}"
    areas = {(area.x, area.y, area.width, area.height) for area in plate.keep_clear}
    for x, y, width, height in sorted(areas):
        yield f"{SOLDER} keep clear: {width:g} x {height:g} at {x:g}, {y:g}"


def _wiring(wiring: Wiring) -> Iterator[str]:
    if not wiring.is_given:
        return
    yield f"{SOLDER} driven: {wiring.drive}s"
    if wiring.diodes:
        yield f"{SOLDER} diodes: {wiring.diodes.part}, band toward {wiring.diodes.band_toward}s"
    if wiring.settle_us:
        yield f"{REFLASH} settle: {wiring.settle_us.value:g} us"
    yield from sorted(f"{SOLDER} key {key}: without diode" for key in wiring.without_diode)
    yield from sorted(f"{SOLDER} key {key}: diode reversed" for key in wiring.reversed)


def _wires(design: Design) -> Iterator[str]:
    for line in sorted(design.keyboard.wiring.lines, key=lambda one: one.name.text):
        name = f"wire {line.name}"
        pins = ", ".join(pin.text for pin in design.pins.get(line.name.text, ()))
        yield f"{SOLDER} {name}: {line.axis}, pin {pins or 'not chosen'}"
        yield f"{SOLDER} {name}: keys {' '.join(key.text for key in line.visits)}"
        if line.colour:
            yield f"{COSMETIC} {name}: {line.colour}"


def _action(design: Design, action: NamedAction) -> str:
    """Return a named action as it is written, whatever blanks and comments are in it."""
    lines = design.source.lines[action.span.line - 1 : action.span.end_line]
    words = [line.partition("#")[0].split() for line in lines]
    said = [words[0], *(line[1:] for line in words[1:] if line)]
    phrase = spaced(" ".join(word for line in said for word in line).partition("=")[2].strip())
    return f"{REFLASH} action {action.name}: {phrase}"


def _cells(layer: Layer) -> Iterator[str]:
    if layer.needs:
        needs = " and ".join(sorted(word.text for word in layer.needs))
        yield f"{REFLASH} layer {layer.name}: while {needs} are on"
    for cell in sorted(layer.cells, key=lambda one: one.key.text):
        if cell.given:
            yield f"{REFLASH} layer {layer.name}, key {cell.key}: {cell.written}"
