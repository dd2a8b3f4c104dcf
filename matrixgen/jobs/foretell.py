"""Whether a keyboard's image will have room in its controller, foretold without building it.

What is foretold is off by some bytes (`templates/image_sizes.json` has how many), so that near to
what there is only a build can tell.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.boards import Mounted
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.image_size import Measured, measured
from matrixgen.families import FAMILIES, CompilerKind, Family
from matrixgen.jobs.problems import PROBLEMS
from matrixgen.jobs.room import UNSURE
from matrixgen.model import Diagnostic, Note
from matrixgen.model.prose import counted
from matrixgen.record import Record
from matrixgen.toolchain import Budget, Memory, kinds_at_hand

CURES: dict[Memory, str] = {
    "flash": "remove a layer or an action that few keys have, or use a controller with more flash",
    "RAM": "drive rows or columns, whichever are fewer, or use a controller with more RAM",
}


class Need(Record):
    """What an image will take of a memory, and what there is of it, in bytes."""

    memory: Memory
    takes: int
    available: int

    @property
    def is_too_much(self) -> bool:
        """Whether there is no room for it, for sure."""
        return self.takes > self.available * (1 + UNSURE)

    @property
    def has_room(self) -> bool:
        """Whether there is room for it, for sure."""
        return self.takes < self.available * (1 - UNSURE)


class Forecast(Record):
    """What an image will take if a compiler builds it: of flash, and of RAM."""

    by: Measured
    needs: tuple[Need, Need]

    @property
    def worst(self) -> float:
        """The largest share of a memory that it takes."""
        return max(need.takes / max(need.available, 1) for need in self.needs)


def forecasts(mounted: Mounted, kinds: tuple[CompilerKind, ...]) -> tuple[Forecast, ...]:
    """Return what a sound and finished keyboard's image will take by each of some compilers.

    A compiler that nothing was measured by for its chip is left out.
    """
    profile = mounted.profile
    budget = Budget.of(FAMILIES[profile.port or ""], profile)
    view = firmware_view(mounted, "")
    found = (measured(view.chip, kind) for kind in kinds)
    return tuple(
        Forecast(
            one,
            (
                Need("flash", one.flash_of(view), budget.flash),
                Need("RAM", one.ram_of(view), budget.ram),
            ),
        )
        for one in found
        if one
    )


def room_findings(mounted: Mounted) -> Iterator[Diagnostic]:
    """Yield each memory that a sound and finished keyboard's image may find no room in.

    It is for the compiler that a build takes; where there is none, for that which makes the
    smallest image.
    """
    family = FAMILIES[mounted.profile.port or ""]
    by_all = forecasts(mounted, ("gcc", "clang"))
    if not by_all:
        return
    usual = next(iter(kinds_at_hand(family)), None)
    best = min(by_all, key=lambda one: one.worst)
    meant = next((one for one in by_all if one.by.compiler == usual), best)
    for need in meant.needs:
        if not need.has_room:
            yield _finding(mounted, family, need, meant, best)


def _finding(
    mounted: Mounted, family: Family, need: Need, meant: Forecast, best: Forecast
) -> Diagnostic:
    slug = "image-without-room" if need.is_too_much else "image-near-limit"
    has = f"`{mounted.profile.name}` has {need.available:,} for it"
    helps = [CURES[need.memory]]
    if not need.is_too_much:
        helps.insert(0, "`matrixgen build` measures it: only a build can tell")
    if best is not meant and all(one.has_room for one in best.needs):
        flash = best.needs[0].takes
        helps.insert(0, f"{best.by.title} makes it smaller: about {flash:,} bytes of flash")
    return PROBLEMS[slug].at(
        mounted.controller.span,
        f"the firmware will need about {need.takes:,} bytes of {need.memory}, and {has}",
        help=helps,
        notes=[Note(_how_sure(mounted, need, meant.by))],
        about=[mounted.profile.name],
    )


def _how_sure(mounted: Mounted, need: Need, by: Measured) -> str:
    keyboard = mounted.keyboard
    off = by.flash_off if need.memory == "flash" else by.ram_off
    return (
        f"{counted(len(keyboard.keys), 'key')}, {counted(len(keyboard.layers), 'layer')}; "
        f"estimated for {by.title}, within {off} bytes on {by.images} images"
    )
