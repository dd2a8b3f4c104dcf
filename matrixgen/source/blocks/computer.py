"""`computer LAYOUT on SYSTEM`: what the computer makes of keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.source.letters import Letters
from matrixgen.source.reporter import Reporter, tokens, trees

if TYPE_CHECKING:
    from matrixgen.layouts import System
    from matrixgen.model.text import Word
    from matrixgen.source.syntax import Node


def computer_of(reporter: Reporter, block: Node | None) -> tuple[Word | None, Word | None, Letters]:
    """Return what the block `keyboard` says of the computer, and what letters mean by that.

    A layout is read only where the file names one.
    """
    said = [part for part in trees(block) if part.data == "computer"] if block else []
    if not said:
        return None, None, Letters()
    from matrixgen.layouts import layout_named

    name = reporter.word(tokens(said[0])[0])
    system = next((reporter.word(tokens(one)[0]) for one in trees(said[0])), None)
    on: System | None = _system_of(reporter, system) if system else None
    layout = layout_named(name.text, on)
    if layout is None:
        _report_unknown(reporter, name)
        return None, None, Letters()
    if system and not layout.is_known:
        reporter.report(
            "unknown-system",
            system.span,
            f"nothing is known of the layout `{name}` on {on}: only what X11 has is",
            help=f"write `computer {name}`; it may be the same there",
        )
        return name, None, Letters()
    return name, system, Letters(layout)


def _system_of(reporter: Reporter, system: Word) -> System | None:
    from matrixgen.layouts import SYSTEMS

    found = next((one for one in SYSTEMS if one == system.text.casefold()), None)
    if found is None:
        reporter.report(
            "unknown-system",
            system.span,
            f"`{system}` is not a system that layouts are known of",
            help="write `linux`, `windows` or `macos`, or nothing for what Linux and Windows share",
        )
    return found


def _report_unknown(reporter: Reporter, name: Word) -> None:
    from matrixgen.layouts import nearest_layouts
    from matrixgen.model.prose import quoted

    near = nearest_layouts(name.text)
    reporter.report(
        "unknown-layout",
        name.span,
        f"there is no layout `{name}`",
        help=[
            *([f"did you mean {quoted(near, 'or')}?"] if near else []),
            "`matrixgen layouts` lists them",
        ],
    )
