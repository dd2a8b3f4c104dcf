"""The section "Press it" of a page: `templates/sheet/press.html.j2` with its script."""

from __future__ import annotations

from typing import Any

from matrixgen.emit.jinja import environment
from matrixgen.emit.press_data import script_json
from matrixgen.record import Record
from matrixgen.resources import resource

PARTS = ("engine", "reports", "text", "knobs", "fingers", "roam", "view", "start")
"""The script's files in the order in which they are put together: each uses what is above it."""


class PressSection(Record, kw_only=True):
    """What the template gets, as `press`.

    `picture` is the markup of the keys, each an element with `data-key`. `data` and `script` may
    stand in script elements as they are. `reason` says why no key can be pressed, None where they
    can. `set_to` is the layout of the computer that the text is of, None for a US one. `knobs` are
    their names, by their numbers. `has_pointer` is whether some key is a pointer's, and
    `has_lights` whether there are lights.
    """

    picture: str
    data: str
    script: str
    reason: str | None
    set_to: str | None
    knobs: tuple[str, ...]
    has_pointer: bool
    has_lights: bool


def press_section(data: dict[str, Any], picture: str) -> str:
    """Return the section's HTML, from what `press_data` made and the markup of a picture."""
    section = PressSection(
        picture=picture,
        data=script_json(data),
        script=press_script(),
        reason=data["reason"],
        set_to=data["types"]["set_to"],
        knobs=tuple(knob["name"] for knob in data.get("knobs", ())),
        has_pointer=data["pointer"],
        has_lights=bool(data["lights"]),
    )
    return environment().get_template("sheet/press.html.j2").render(press=section)


def press_script() -> str:
    """Return the whole script."""
    folder = resource("templates") / "sheet" / "press"
    return "\n".join((folder / f"{name}.js").read_text(encoding="utf-8") for name in PARTS)
