"""The page of a file that is followed: a picture at once, and what takes long when it is made."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.emit.sheet import Sheet, page
from matrixgen.emit.sheet.followed import Followed
from matrixgen.jobs.examine import Examined
from matrixgen.jobs.sheet import sheet_of_examined
from matrixgen.model import Design
from matrixgen.model.prose import listed
from matrixgen.record import Record
from matrixgen.routing import KeptRoutes
from matrixgen.toolchain.web_engine import NoEngine

ENGINE_WAITS = NoEngine("The keyboard's engine is being compiled: keys can be pressed in a moment.")

ROUTES_WAIT = (
    "The routes of the wires are still being looked for. Until they are found, a moment from now, "
    "wires are drawn straight, and their lengths are too short."
)


class DrawnSheet(Record):
    """A sheet and its page; `waits_for` says what of it is still to be made, empty for nothing."""

    sheet: Sheet
    page: bytes
    waits_for: str = ""

    @property
    def is_whole(self) -> bool:
        """Whether all of it is there."""
        return not self.waits_for


class SheetMaker:
    """Draws one file again and again, and keeps what did not change."""

    def __init__(self) -> None:
        self._routes = KeptRoutes()

    def at_once(self, examined: Examined, design: Design, mounted: Mounted | None) -> DrawnSheet:
        """Return the page with the routes and the engine that are kept, if they are."""
        find = self._routes.find_if_kept
        sheet = sheet_of_examined(examined, design, mounted, find, ENGINE_WAITS)
        waits = ROUTES_WAIT if sheet.left_out else ""
        made_later = (
            ("the routes of its wires", sheet.left_out),
            ("what its keys are pressed with", sheet.press["reason"] == ENGINE_WAITS.reason),
        )
        missing = [what for what, is_missing in made_later if is_missing]
        waits_for = f"{listed(missing)} will follow" if missing else ""
        return DrawnSheet(sheet, page(sheet, Followed(waits)), waits_for)

    def whole(self, examined: Examined, design: Design, mounted: Mounted | None) -> DrawnSheet:
        """Return the page with all of it, which may take seconds."""
        sheet = sheet_of_examined(examined, design, mounted, self._routes.find)
        return DrawnSheet(sheet, page(sheet, Followed()))
