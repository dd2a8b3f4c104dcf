"""The bench sheet: one HTML file that needs nothing else."""

from __future__ import annotations

from matrixgen import __version__
from matrixgen.emit.press_data import script_json
from matrixgen.emit.press_section import press_section
from matrixgen.emit.sheet.content_policy import with_policy
from matrixgen.emit.sheet.contents import Sheet
from matrixgen.emit.sheet.followed import Followed
from matrixgen.emit.sheet.pictures import front_svg, markup, style_text


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
