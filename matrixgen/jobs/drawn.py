"""A new file from a drawing: its plate is proposed, read back, and held to the drawing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist, hypot
from pathlib import Path

from matrixgen.drawing import (
    DrawnHousing,
    Figures,
    Leftover,
    figures_in,
    plate_of_figures,
    read_drawing,
)
from matrixgen.drawing.plate_text import corner_of
from matrixgen.drawing.traces import Drawing
from matrixgen.format.formatted import formatted
from matrixgen.jobs.drawn_outline import outline_of_drawing
from matrixgen.model import Design, Plate, SourceText
from matrixgen.model.geometry import Point, centre_of
from matrixgen.model.prose import counted
from matrixgen.model.switch import UNIT_MM
from matrixgen.plate.openings import housings_of
from matrixgen.reading import Refused
from matrixgen.record import Record
from matrixgen.rules.plate.outlines import overlaps
from matrixgen.source import LIMITS, read_design

FARTHEST_MM = 0.02
"""How far the middle of a switch may be from where the drawing has it."""

CUT_OUT_OFF_MM = 0.5
"""How far a cut-out may be from where the table of stabilisers has it (a choice)."""


class DrawnFile(Record, kw_only=True):
    """The text of a new file, and what its maker should know of the drawing.

    `maybe_leds` counts holes that may be for an LED or for a screw: each is in a comment.
    `remarks` are about the whole drawing, such as its unit; `leftovers` is what was not understood.
    """

    text: str
    keys: int
    holes: int
    maybe_leds: int
    remarks: tuple[str, ...]
    leftovers: tuple[Leftover, ...]


def file_of_drawing(
    path: Path, name: str, drawing_path: Path, *, controller: str | None, is_mirrored: bool
) -> DrawnFile:
    """Return the file at `path`, to be written, with the plate of a drawing.

    `controller` is as the file writes it. Raises `OSError`, mostly `Refused`, where the drawing
    cannot be read or has no plate.
    """
    drawing = read_drawing(drawing_path)
    figures = figures_in(drawing, is_mirrored=is_mirrored)
    _check(figures)
    names = _FileNames(path, name, drawing_path.name, controller)
    _, design = _checked(figures, names, [])
    corner, around = corner_of(figures), figures.around
    stabilisers = stabilisers_in(figures.housings, design.keyboard.plate, corner)
    outline = around and outline_of_drawing(around.ring, corner, design.keyboard.plate)
    more = [said for said in (outline, stabilisers.statement) if said]
    text, design = _checked(figures, names, more)
    unused = [around.leftover] if around and outline is None else []
    unused += [one.leftover for one in stabilisers.others]
    extra = [
        Leftover(f"round hole: a plate has at most {LIMITS.holes}", at, "")
        for at in (hole.at for hole in figures.holes[LIMITS.holes :])
    ]
    return DrawnFile(
        text=text,
        keys=len(design.keyboard.keys),
        holes=len(design.keyboard.plate.holes),
        maybe_leds=sum(hole.may_be_led for hole in figures.holes[: LIMITS.holes]),
        remarks=tuple(_remarks(drawing, figures)),
        leftovers=(*unused, *figures.leftovers, *extra),
    )


def _check(figures: Figures) -> None:
    """Refuse a drawing without switches, or with too many."""
    number = len(figures.switches)
    if not number:
        raise Refused(
            "it has no closed square of 14 mm, as a switch's cut-out is",
            "check its unit, and that the squares are on a layer that is shown",
        )
    if number > LIMITS.keys:
        raise Refused(f"it has {number:,} switches; a keyboard has at most {LIMITS.keys:,} keys")


class _FileNames(Record):
    """What the new file is called and names."""

    path: Path
    keyboard: str
    drawing: str
    controller: str | None


def _checked(figures: Figures, names: _FileNames, more: list[str]) -> tuple[str, Design]:
    """Return the text, with `more` statements, and what it means.

    Widths are guessed only if no keys overlap for it.
    """
    found = _proposed(figures, names, more, may_widen=True)
    if any(overlaps(found[1].keyboard.keys)):
        found = _proposed(figures, names, more, may_widen=False)
    return found


def _proposed(
    figures: Figures, names: _FileNames, more: list[str], *, may_widen: bool
) -> tuple[str, Design]:
    """Return a text and what it means; raises `Refused` where a switch is not in its place."""
    block = plate_of_figures(figures, may_widen=may_widen, most_holes=LIMITS.holes)
    text = _text([*block, *more], names)
    design, _ = read_design(names.path, text)
    if design is None or _error_mm(design, figures) > FARTHEST_MM:
        raise Refused("its switches and holes are too far apart for a keyboard")
    return text, design


def _text(block: list[str], names: _FileNames) -> str:
    """Return the file in its canonical form."""
    shown = "".join(one if one.isprintable() else "?" for one in names.drawing)
    chip = [f"  controller {names.controller}"] if names.controller else []
    head = [f'keyboard "{names.keyboard}"', *chip]
    about = [
        f"# Proposed from the drawing {shown}: each switch is where it is there. Give the keys",
        "# their names; widths are a guess, since a drawing of cut-outs does not show keycaps.",
    ]
    text = "\n".join([*head, "", *about, *block, ""])
    return formatted(SourceText(str(names.path), text)).text or text


def _error_mm(design: Design, figures: Figures) -> float:
    """Return how far a switch is from its nearest key at most."""
    left, top = corner_of(figures)
    centres = sorted(centre_of(key) for key in design.keyboard.keys)
    wanted = sorted((one.x / UNIT_MM - left, one.y / UNIT_MM - top) for one in figures.switches)
    if len(centres) != len(wanted):
        return float("inf")
    return max(min(hypot(x - a, y - b) for a, b in centres) for x, y in wanted) * UNIT_MM


def _remarks(drawing: Drawing, figures: Figures) -> Iterator[str]:
    """Yield what to know of the whole drawing."""
    own = drawing.units[0].name
    if not drawing.is_stated:
        yield f"the drawing has no unit: it was read in {figures.unit.name}"
    elif figures.unit != drawing.units[0]:
        yield f"no square is 14 mm in the drawing's own unit, {own}: read in {figures.unit.name}"
    if drawing.hidden:
        yield f"left out what is hidden in the drawing: {counted(drawing.hidden, 'shape')}"


class DrawnStabilisers(Record):
    """The statement that says which keys have none, None where all have; and other cut-outs."""

    statement: str | None
    others: tuple[DrawnHousing, ...]


def stabilisers_in(drawn: Sequence[DrawnHousing], plate: Plate, corner: Point) -> DrawnStabilisers:
    """Return what a drawing's cut-outs say of a plate; `corner` is the plate's, in key units.

    Where none of them is a stabiliser's, those of the drawing are of another kind, which leaves
    open what keys have one.
    """
    left, top = corner[0] * UNIT_MM, corner[1] * UNIT_MM
    bars = housings_of(plate)
    of_bar = [_cut_out_at((bar.middle[0] + left, bar.middle[1] + top), drawn) for bar in bars]
    known = {id(one) for one in of_bar if one}
    others = tuple(one for one in drawn if id(one) not in known)
    having = {bar.key for bar, one in zip(bars, of_bar, strict=True) if one}
    without = dict.fromkeys(bar.key for bar in bars if bar.key not in having)
    said = f"  stabiliser none {' '.join(without)}" if having and without else None
    return DrawnStabilisers(said, others)


def _cut_out_at(at: Point, drawn: Sequence[DrawnHousing]) -> DrawnHousing | None:
    """Return the cut-out that is where a stabiliser's has to be."""
    nearest = min(drawn, key=lambda one: dist(one.at, at), default=None)
    return nearest if nearest and dist(nearest.at, at) <= CUT_OUT_OFF_MM else None
