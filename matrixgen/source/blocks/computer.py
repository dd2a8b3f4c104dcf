"""`computer LAYOUT on SYSTEM`: what the computer makes of keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit
from matrixgen.source.letters import Letters
from matrixgen.source.reporter import Reporter, tokens, trees

if TYPE_CHECKING:
    from matrixgen.layouts import System
    from matrixgen.model.text import Word
    from matrixgen.source.syntax import Node


ALSO_CALLED: dict[str, System] = {
    **dict.fromkeys(("win", "windows10", "windows11", "microsoft"), "windows"),
    **dict.fromkeys(("mac", "osx", "os-x", "apple", "darwin"), "macos"),
    **dict.fromkeys(("x11", "ubuntu", "debian", "gnu", "wayland"), "linux"),
}
"""What people call systems."""


def computer_of(reporter: Reporter, block: Node | None) -> tuple[Word | None, Word | None, Letters]:
    """Return what the block `keyboard` says of the computer, and what letters mean by that.

    A layout is read only where the file names one.
    """
    said = [part for part in trees(block) if part.data == "computer"] if block else []
    if not said:
        return None, None, Letters(is_lost=reporter.was_dropped("computer"))
    from matrixgen.layouts import layout_named

    name = reporter.word(tokens(said[0])[0])
    system = next((reporter.word(tokens(one)[0]) for one in trees(said[0])), None)
    on: System | None = _system_of(reporter, system) if system else None
    layout = layout_named(name.text, on)
    if layout is None:
        _report_unknown(reporter, name)
        return None, None, Letters(is_lost=True)
    if system and not layout.is_known:
        reporter.report(
            "unknown-system",
            system.span,
            f"the layout `{name}` is only known as X11 has it, not on `{system}`",
            help=f"write `computer {name}`; it may be the same there",
        )
        return name, None, Letters(is_lost=True)
    return name, system, Letters(layout)


def _system_of(reporter: Reporter, system: Word) -> System | None:
    from matrixgen.layouts import SYSTEMS

    found = next((one for one in SYSTEMS if one == system.text.casefold()), None)
    if found is None:
        _report_unknown_system(reporter, system)
    return found


def _report_unknown_system(reporter: Reporter, system: Word) -> None:
    from matrixgen.layouts import SYSTEMS
    from matrixgen.similar import similar_name

    said = system.text.casefold()
    meant = ALSO_CALLED.get(said) or similar_name(said, SYSTEMS)
    reporter.report(
        "unknown-system",
        system.span,
        f"`{system}` is not a system that layouts are known for",
        help=f"write `{meant}`"
        if meant
        else "write `linux`, `windows` or `macos`, or nothing for what Linux and Windows share",
        fix=Fix(f"write `{meant}` for `{system}`", (Edit(system.span, meant),)) if meant else None,
    )


def _report_unknown(reporter: Reporter, name: Word) -> None:
    from matrixgen.layouts import SYSTEMS, nearest_layouts
    from matrixgen.model.prose import quoted

    near = nearest_layouts(name.text)
    is_system = name.text.casefold() in (*SYSTEMS, *ALSO_CALLED)
    reporter.report(
        "unknown-layout",
        name.span,
        f"there is no layout `{name}`",
        help=[
            *([f"{quoted(near, 'or')} may be meant"] if near else []),
            *(["a system comes after the layout, as in `computer de on linux`"] * is_system),
            "`matrixgen layouts` lists them",
        ],
    )
