"""Names that the program knows: controllers, diodes, layouts, colours, screws, findings."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.boards import USUAL_DIODE, builtin_diodes, builtin_names, builtin_profile
from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.offer import Offer
from matrixgen.emit.wire_colours import COLOURS
from matrixgen.jobs.catalogue import catalogue
from matrixgen.layouts import SYSTEMS, layout_named
from matrixgen.layouts.files import layout_language, layout_names
from matrixgen.model import Severity
from matrixgen.model.light import LIGHT_COLOURS
from matrixgen.model.plate import SCREWS, USUAL_SCREW

FITS, LIKELY, OTHER = 0.0, 1.0, 2.0


def controllers(asked: Cursor) -> Iterator[Offer]:
    """Yield controllers: those that have the file's pins, and enough of them, first."""
    words = asked.rest_of_file
    pins, named = words.texts("PIN"), {*asked.words_before, *asked.words_after}
    for name in builtin_names():
        profile = builtin_profile(name)
        if profile is None or name in named:
            continue
        known = sum(profile.pin(pin) is not None for pin in pins)
        usable = len(profile.usable_pins)
        rank = OTHER - (known / len(pins) if pins else 0) + (profile.port is None) / 2
        rank += (usable < len(words.wires)) + abs(usable - len(words.wires)) / 1000
        yield Offer(name, rank, f"{profile.title}: {usable} pins, {profile.proof}")


def diodes(asked: Cursor) -> Iterator[Offer]:
    """Yield the diodes whose figures are known."""
    for place, name in enumerate(builtin_diodes()):
        yield Offer(name, FITS if name == USUAL_DIODE else LIKELY + place / 100)


def layouts(asked: Cursor) -> Iterator[Offer]:
    """Yield the layouts of computers."""
    letters = {sign for sign in asked.source.text if sign.isalpha() and not sign.isascii()}
    for name in layout_names():
        layout = layout_named(name) if letters else None
        known = sum(layout.has_somewhere(sign) for sign in letters) if layout else 0
        yield Offer(name, LIKELY - known / (len(letters) or 1), layout_language(name))


def systems(asked: Cursor) -> Iterator[Offer]:
    """Yield the systems that a computer may run."""
    for place, name in enumerate(SYSTEMS):
        yield Offer(name, place)


def colours(asked: Cursor) -> Iterator[Offer]:
    """Yield colours of wires, those that no other wire has first."""
    used = asked.rest_of_file.texts("COLOUR")
    for place, name in enumerate(COLOURS):
        rank = place / 100 + (name in used) * OTHER
        yield Offer(name, rank, "another wire has it" if name in used else "")


def light_colours(asked: Cursor) -> Iterator[Offer]:
    """Yield the colours of LEDs."""
    used = asked.rest_of_file.texts("LIGHT_COLOUR")
    for place, name in enumerate(LIGHT_COLOURS):
        yield Offer(name, FITS + place / 100 - (name in used))


def screws(asked: Cursor) -> Iterator[Offer]:
    """Yield the sizes of screws."""
    for one in SCREWS:
        usual = " (it need not be said)" if one is USUAL_SCREW else ""
        says = f"hole {one.hole_mm:g} mm, head {one.head_mm:g} mm{usual}"
        yield Offer(one.name, float(one is USUAL_SCREW), says)


def findings(asked: Cursor) -> Iterator[Offer]:
    """Yield the warnings that may be allowed, those that there are first."""
    found = [one.slug for one in asked.examined.findings if not one.is_error]
    shown = list(dict.fromkeys(found))
    for slug, problem in catalogue().items():
        if problem.severity is Severity.WARNING:
            rank = FITS + shown.index(slug) / 100 if slug in shown else OTHER
            yield Offer(slug, rank, problem.title)
