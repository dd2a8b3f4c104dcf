"""What the sheet shows: pictures, lists, and the words about them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import PurePath
from typing import Any

from matrixgen.boards import Mounted, Pin
from matrixgen.emit.bench_words import Cautions
from matrixgen.emit.component_rows import ComponentRow
from matrixgen.emit.sheet.back import BackPicture, HopShape
from matrixgen.emit.sheet.board import BoardPicture
from matrixgen.emit.sheet.findings import Finding, back_style, wire_marks
from matrixgen.emit.sheet.frame import Box, number
from matrixgen.emit.sheet.front import Front, LayerPicture
from matrixgen.emit.sheet.guide import Guide, guide_of, steps_of
from matrixgen.emit.sheet.lists import Bought, WireEntry
from matrixgen.emit.sheet.paper import Tile, tiles_of
from matrixgen.emit.sheet.pictures import style_text
from matrixgen.model import Axis, Keyboard
from matrixgen.model.prose import counted
from matrixgen.record import Record

SCREEN_PX_A_MM = 5
"""How large a picture gets on a screen, at most: 5 pixels of CSS for a millimetre."""

TOUCH_PX_A_MM = 2.4
"""The same where fingers point at it: a key of one unit has 45 pixels (WCAG 2.2 wants 44)."""


class Sheet(Cautions, Record, kw_only=True):
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
        return self._wires_with(lambda hop: hop.is_left_out)

    @property
    def in_haste(self) -> str:
        """How many wires there was no time to lay beside the others; empty where there are none."""
        return self._wires_with(lambda hop: hop.is_in_haste)

    @property
    def has_unrouted(self) -> bool:
        """Whether a hop has no way round what is to be kept clear."""
        return bool(self._wires_with(lambda hop: not hop.is_routed))

    def _wires_with(self, is_so: Callable[[HopShape], bool]) -> str:
        wires = self.back.wires if self.back else ()
        found = sum(any(map(is_so, wire.hops)) for wire in wires)
        return counted(found, "wire") if found else ""
