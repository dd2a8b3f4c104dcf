"""The sheet of a keyboard: all that it shows, found in the model and on the back of its plate."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import PurePath
from types import MappingProxyType
from typing import Any

from matrixgen.boards import DiodePart, Mounted, diode_name
from matrixgen.computer.setting import layout_of, press_words
from matrixgen.emit.component_rows import component_rows
from matrixgen.emit.sheet.back import back_picture
from matrixgen.emit.sheet.board import board_pictures
from matrixgen.emit.sheet.contents import Sheet
from matrixgen.emit.sheet.findings import findings_of, key_marks
from matrixgen.emit.sheet.front import front_of, layer_pictures
from matrixgen.emit.sheet.ink import Ink, inks
from matrixgen.emit.sheet.lists import to_buy, wire_entries
from matrixgen.model import Diagnostic, Keyboard, Layer
from matrixgen.model.actions.behaviour import PressWords
from matrixgen.routing import Back, FindRoutes, back_of


def sheet_of(
    keyboard: Keyboard,
    file: str,
    press: dict[str, Any],
    mounted: Mounted | None = None,
    written: Mapping[str, str] = MappingProxyType({}),
    found: Iterable[Diagnostic] = (),
    missing: tuple[str, ...] = (),
    diode: DiodePart | None = None,
    find: FindRoutes | None = None,
) -> Sheet:
    """Return the sheet of a keyboard that was read from a file, on a controller or on none.

    Without one, `written` has the pins of its lines as far as the file tells. `press` is what
    `press_data` made of it. `found` is listed and marked, and `missing` says what is still open.
    `diode` is what is known of the diodes of a keyboard on no controller. `find` may have its
    routes.
    """
    found = tuple(found)
    findings = findings_of(keyboard, found)
    stated = keyboard.wiring.diodes
    part = diode_name(stated.part, mounted.diode if mounted else diode) if stated else ""
    has_wires = bool(keyboard.wiring.lines)
    back = back_of(keyboard, apart=True, mounted=mounted, find=find) if has_wires else None
    drawn = inks(keyboard.wiring)
    on_controller = {one.line.name.text: one.pin.shown for one in mounted.wired} if mounted else {}
    pins = on_controller or dict(written)
    printed = pins | {
        one.line.name.text: one.pin.label or one.pin.name
        for one in (mounted.wired if mounted else ())
    }
    diodes = tuple(one.key.name.text for one in back.switches if one.diode) if back else ()
    wires = wire_entries(back, drawn, pins) if back else ()
    return Sheet(
        keyboard=keyboard,
        file=PurePath(file).name,
        mounted=mounted,
        front=front_of(keyboard, key_marks(findings)),
        layers=layer_pictures(keyboard),
        back=back_picture(keyboard, back, drawn, printed, mounted) if back else None,
        diode_axis=back.diode_axis if back else "row",
        diodes=diodes,
        diode=part,
        wires=wires,
        components=component_rows(mounted) if mounted else (),
        boards=board_pictures(mounted, drawn) if mounted else (),
        bought=to_buy(keyboard, mounted, wires, len(diodes), part),
        key_details=_key_details(keyboard, back, drawn, pins),
        press=press,
        findings=findings,
        unlisted=len(found) - len(findings),
        missing=missing,
    )


def _on_layer(key: str, layer: Layer, words: PressWords) -> Iterator[list[str]]:
    """Yield what a key does on a layer, alone and with others."""
    if action := layer.action_of(key):
        yield [layer.name.text, action.said(words)]
    for one in layer.together:
        if key in one.key_names:
            others = " ".join(name for name in one.key_names if name != key)
            yield [f"{layer.name}, with {others}", one.action.said(words)]


def _key_details(
    keyboard: Keyboard, back: Back | None, drawn: dict[str, Ink], pins: dict[str, str]
) -> dict[str, Any]:
    """Return what the page tells of each key: its wires, and what it does on each layer."""
    wires: dict[str, dict[str, list[str]]] = {}
    words = press_words(layout_of(keyboard))
    for run in back.runs if back else ():
        name = run.line.name.text
        about = [name, pins.get(name, ""), drawn[name].colour.shown]
        for joint in run.joints:
            wires.setdefault(joint.key, {})[run.line.axis] = about
    return {
        key.name.text: {
            "wires": wires.get(key.name.text, {}),
            "layers": [
                row for layer in keyboard.layers for row in _on_layer(key.name.text, layer, words)
            ],
        }
        for key in keyboard.keys
    }
