"""What changed in a maker's own profile of a controller, and in a diode of their own.

A file names them and does not say what is in them: the same file is another keyboard with another
clock, or with a label on another pin.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from matrixgen.boards import Mounted, Profile
from matrixgen.compare import BenchStep, Change
from matrixgen.jobs.examine import Examined
from matrixgen.model.work import Field, fields_of, work_of

MOST_SHOWN = 30
"""Letters of a value that is shown; a longer one is only said to be another."""


def of_boards(old: Examined, new: Examined) -> Iterator[Change]:
    """Yield what changed in what is known of the controllers and the diode that both files name."""
    before = {one.controller.text: one for one in old.mounted}
    for one in new.mounted:
        was = before.get(one.controller.text)
        if was and was.profile != one.profile:
            yield from _pins(was, one)
            yield from _fields(was.profile, one.profile, one.controller.text)
    yield from _diode(old, new)


def _pins(old: Mounted, new: Mounted) -> Iterator[Change]:
    """Yield each wire whose word for a pin is another pin now."""
    before = {one.line.name.text: one for one in old.wired}
    for one in new.wired:
        line = one.line.name.text
        was = before.get(line)
        if was and was.word.text == one.word.text and was.pin.name != one.pin.name:
            yield Change(
                kind="solder",
                slug="pin-moved",
                text=f"wire `{line}` is on {one.pin.name} now, and was on {was.pin.name}: "
                f"that is what `{one.word.text}` is in the profile of `{new.controller.text}`",
                thing="pin",
                old=was.pin.name,
                new=one.pin.name,
                steps=(
                    BenchStep("pin", f"move wire `{line}` from {was.pin.name} to {one.pin.name}"),
                ),
                reflashes=True,
            )


def _fields(old: Profile, new: Profile, controller: str) -> Iterator[Change]:
    for field in fields_of(Profile):
        was, now = getattr(old, field.name), getattr(new, field.name)
        if field.is_said and was != now:
            work = work_of(Profile, field.name)
            yield Change(
                kind=work,
                slug="profile-changed",
                text=f"the profile of `{controller}` has {_said(field, was, now)}",
                thing="field of a profile",
                old=_shown(was),
                new=_shown(now),
                reflashes=work == "solder",
            )


def _said(field: Field, old: Any, new: Any) -> str:
    was, now = _shown(old), _shown(new)
    if was is None or now is None:
        return f"another `{field.name}`"
    return f"{now} as `{field.name}`, and had {was}"


def _shown(value: Any) -> str | None:
    """Return a value as it is said, if it is a short one."""
    said = "none" if value is None else str(value)
    is_plain = value is None or isinstance(value, str | int | float)
    return said if is_plain and len(said) <= MOST_SHOWN else None


def _diode(old: Examined, new: Examined) -> Iterator[Change]:
    """Yield a change of what is known of the same diode: no image has any of it by itself."""
    parts = [
        side.design.keyboard.wiring.diodes.part.text
        for side in (old, new)
        if side.design and side.design.keyboard.wiring.diodes
    ]
    known = [side.mounted[0].diode for side in (old, new) if side.mounted]
    if len(parts) == len(known) == 2 and parts[0] == parts[1] and known[0] != known[1]:
        yield Change(
            kind="cosmetic",
            slug="diode-known",
            text=f"what is known of the diode `{parts[0]}` changed",
            thing="file of a diode",
        )
