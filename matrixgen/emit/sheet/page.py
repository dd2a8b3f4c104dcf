"""The bench sheet: one HTML file that needs nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import PurePath
from types import MappingProxyType
from typing import Any

from matrixgen import __version__
from matrixgen.boards import DiodePart, Mounted, Pin, diode_name
from matrixgen.computer.setting import layout_of, press_words, types_as
from matrixgen.emit.bench_words import about_texts, before_plugging_in, before_soldering
from matrixgen.emit.component_rows import ComponentRow, component_rows
from matrixgen.emit.press_data import script_json
from matrixgen.emit.press_section import press_section
from matrixgen.emit.sheet.back import BackPicture, back_picture
from matrixgen.emit.sheet.board import BoardPicture, board_pictures
from matrixgen.emit.sheet.content_policy import with_policy
from matrixgen.emit.sheet.findings import (
    Finding,
    back_style,
    findings_of,
    key_marks,
    wire_marks,
)
from matrixgen.emit.sheet.followed import Followed
from matrixgen.emit.sheet.frame import Box, number
from matrixgen.emit.sheet.front import Front, LayerPicture, front_of, layer_pictures
from matrixgen.emit.sheet.guide import Guide, guide_of, steps_of
from matrixgen.emit.sheet.ink import Ink, inks
from matrixgen.emit.sheet.lists import Bought, WireEntry, to_buy, wire_entries
from matrixgen.emit.sheet.paper import Tile, tiles_of
from matrixgen.emit.sheet.pictures import front_svg, markup, style_text
from matrixgen.model import Axis, Diagnostic, Keyboard, Layer
from matrixgen.model.actions.behaviour import PressWords
from matrixgen.model.prose import counted
from matrixgen.record import Record
from matrixgen.routing import Back, FindRoutes, back_of

SCREEN_PX_A_MM = 5
"""How large a picture gets on a screen, at most: 5 pixels of CSS for a millimetre."""

TOUCH_PX_A_MM = 2.4
"""The same where fingers point at it: a key of one unit has 45 pixels (WCAG 2.2 wants 44)."""


class Sheet(Record, kw_only=True):
    """All that the sheet shows. What the file does not have yet is empty, or None."""

    keyboard: Keyboard
    file: str
    mounted: Mounted | None
    front: Front
    layers: tuple[LayerPicture, ...]
    back: BackPicture | None
    diode_axis: Axis
    diodes: tuple[str, ...]
    diode: str
    wires: tuple[WireEntry, ...]
    components: tuple[ComponentRow, ...]
    boards: tuple[BoardPicture, ...]
    bought: tuple[Bought, ...]
    key_details: dict[str, Any]
    press: dict[str, Any]
    findings: tuple[Finding, ...]
    unlisted: int
    missing: tuple[str, ...]

    @property
    def title(self) -> str:
        """The keyboard's name, or its file's."""
        return self.keyboard.identity.product or PurePath(self.file).stem

    @property
    def types_as(self) -> str | None:
        """Which computer the caps and the text are of; None where the file says nothing of it."""
        return types_as(self.keyboard)

    @property
    def guide(self) -> Guide:
        """One switch, and what is soldered to its legs."""
        return guide_of(self.keyboard.plate.cut_out, self.diode_axis, has_diodes=bool(self.diodes))

    @property
    def steps(self) -> tuple[str, ...]:
        """The order of the work."""
        return steps_of(self.diode_axis, has_diodes=bool(self.diodes))

    @property
    def has_errors(self) -> bool:
        """Whether something in the file has to be corrected."""
        return any(one.severity == "error" for one in self.findings)

    @property
    def wire_marks(self) -> dict[str, str]:
        """The numbers of the findings at each wire that has any."""
        return wire_marks(self.findings)

    @property
    def style(self) -> str:
        """What the style sheets of the drawings have besides `picture.css`."""
        return style_text("found.css") + back_style(self.findings) if self.findings else ""

    @property
    def before_soldering(self) -> tuple[str, ...]:
        """The cautions that come first."""
        return before_soldering()

    @property
    def about_texts(self) -> str | None:
        """The caution where a key types a text."""
        return about_texts(self.keyboard)

    @property
    def before_plugging_in(self) -> tuple[str, ...]:
        """What to measure before the keyboard meets a computer."""
        return before_plugging_in(self.keyboard.wiring)

    @property
    def unusable_pins(self) -> tuple[Pin, ...]:
        """The controller's pins that no wire may go to."""
        pins = self.mounted.profile.pins if self.mounted else ()
        return tuple(pin for pin in pins if not pin.is_usable)

    @property
    def jumpers(self) -> tuple[tuple[str, str, str, int], ...]:
        """Each jumper's wire, the two keys that it joins, and its length as it is cut."""
        return tuple(
            (wire.ink.wire, hop.start.key, hop.end.key, length)
            for wire in self.wires
            for hop, length in zip(wire.jumpers, wire.cut_mm, strict=False)
        )

    def sizes(self, box: Box) -> str:
        """Return how wide a picture is on paper, at most on a screen, at least for fingers."""
        printed = number(box.width / box.scale)
        screen, touch = (number(box.width * px) for px in (SCREEN_PX_A_MM, TOUCH_PX_A_MM))
        return f"--print: {printed}mm; --screen: {screen}px; --touch: {touch}px"

    def print_note(self, box: Box) -> str:
        """Return what to say of a picture's size on paper."""
        if box.scale == 1:
            return "Printed without scaling, this is the true size: check it with the ruler."
        return f"Too large for one sheet: drawn at 1 : {box.scale:g}, and at 1 : 1 further below."

    def tiles(self, box: Box) -> tuple[Tile, ...]:
        """Return the parts of a picture at its true size, if it has no room on one sheet."""
        return tiles_of(box)

    @property
    def left_out(self) -> str:
        """How many wires have a hop that no route was looked for; empty where none has."""
        found = sum(any(h.is_left_out for h in w.hops) for w in self.back.wires) if self.back else 0
        return counted(found, "wire") if found else ""

    @property
    def in_haste(self) -> str:
        """How many wires there was no time to lay beside the others; empty where there are none."""
        wires = self.back.wires if self.back else ()
        found = sum(any(hop.is_in_haste for hop in wire.hops) for wire in wires)
        return counted(found, "wire") if found else ""

    @property
    def has_unrouted(self) -> bool:
        """Whether a hop has no way round what is to be kept clear."""
        return self.back is not None and any(
            not hop.is_routed for wire in self.back.wires for hop in wire.hops
        )


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


def page(sheet: Sheet, followed: Followed | None = None) -> bytes:
    """Return the sheet as a page: one that is `followed` also asks whether it was drawn again."""
    template = markup().get_template("sheet/sheet.html.j2")
    text = template.render(
        sheet=sheet,
        followed=followed,
        version=__version__,
        style=style_text("picture.css") + sheet.style + style_text("page.css"),
        script=style_text("sheet.js"),
        key_details=script_json(sheet.key_details),
        press=press_section(sheet.press, _live_picture(sheet)),
    )
    return with_policy(text).encode("utf-8")


def _live_picture(sheet: Sheet) -> str:
    """Return the picture whose keys the page's script makes live, with its sizes."""
    picture = front_svg(sheet.front, sheet.layers[0])
    return f'<div class="live-picture" style="{sheet.sizes(sheet.front.box)}">\n{picture}</div>'


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
