"""A layout in text: its keys in rows, what it types, and what differs by system."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence

from matrixgen.cli.boards import table
from matrixgen.layouts import (
    SYSTEMS,
    HostLayout,
    KeyStroke,
    SignOnSystems,
    System,
    differing_signs,
    layout_named,
)
from matrixgen.layouts.strokes import SYSTEM_WORDS
from matrixgen.usages import modifier_names, word_of

ROWS = (
    (0x35, *range(0x1E, 0x28), 0x2D, 0x2E, 0x89),
    (0x14, 0x1A, 0x08, 0x15, 0x17, 0x1C, 0x18, 0x0C, 0x12, 0x13, 0x2F, 0x30),
    (0x04, 0x16, 0x07, 0x09, 0x0A, 0x0B, 0x0D, 0x0E, 0x0F, 0x33, 0x34, 0x31),
    (0x64, 0x1D, 0x1B, 0x06, 0x19, 0x05, 0x11, 0x10, 0x36, 0x37, 0x38, 0x87),
    (0x2C,),
)
"""The keys as they lie on a keyboard with a key beside the left Shift key; some have a key more."""

KEYPAD = (*range(0x54, 0x58), *range(0x59, 0x64))


LEGEND = """\
+-----+  left: with Shift above, alone below
|S  B |  right: the same with {third}
|a  A |  *  a dead key, which waits for the next key
+-----+  ␣  a space that does not end a line, or is narrow"""


def details(layout: HostLayout) -> str:
    """Return what is known of one layout, on its system or as Linux has it."""
    parts = [
        f"{layout.name}: {layout.language}{_on(layout)}",
        "\n".join(_drawn(layout)),
        LEGEND.format(third="Option" if layout.system == "macos" else "AltGr"),
        table([*_figures(layout)]),
        _differing(differing_signs(layout.name)),
    ]
    return "\n\n".join(part for part in parts if part)


def _on(layout: HostLayout) -> str:
    return f", on {SYSTEM_WORDS[layout.system]}" if layout.system else ""


def _drawn(layout: HostLayout) -> list[str]:
    """Return the keys in rows, each two lines high, with a line between rows."""
    lines = [""]
    for row in ROWS:
        keys = [usage for usage in row if usage in layout.usages]
        rule = "+-----" * len(keys) + "+"
        lines[-1] = max(lines[-1], rule, key=len)
        for levels in ((1, 3), (0, 2)):
            lines.append("|".join(["", *(_half(layout, usage, levels) for usage in keys), ""]))
        lines.append(rule)
    return lines


def _half(layout: HostLayout, usage: int, levels: Sequence[int]) -> str:
    """Return half of a key: two signs, each with its mark if it is dead."""
    signs = layout.signs(usage)
    left, right = (
        _shown(signs[level]) + ("*" if layout.is_dead(usage, level) else " ") for level in levels
    )
    return f"{left} {right}"


def _shown(sign: str | None) -> str:
    """Return a sign as it can be seen in one column; what combines is put on a circle."""
    if sign is None:
        return " "
    if unicodedata.combining(sign):
        return f"◌{sign}"
    return sign if sign.isprintable() else "␣"


def _figures(layout: HostLayout) -> Iterator[tuple[str, str]]:
    keypad = [sign for usage in KEYPAD if (sign := layout.signs(usage)[0])]
    yield "keypad", " ".join(keypad)
    for system in SYSTEMS if layout.system is None else (layout.system,):
        there = layout_named(layout.name, system)
        if there and there.is_known:
            yield f"signs on {SYSTEM_WORDS[system]}", str(len(there.typable()))
    if layout.system is None and layout.is_compared:
        yield "of these in one way", f"{len(layout.typable())} on Linux and Windows"
    yield "letters a to z", "all" if layout.has_latin else "not all"
    yield "source", f"{layout.source}, as Linux has it"
    yield "Windows, macOS", _others(layout)


def _others(layout: HostLayout) -> str:
    if layout.is_compared:
        return "from collected tables, untested; signs that these lack are left out"
    return "nothing is known; only X11's data are"


def _differing(signs: Sequence[SignOnSystems]) -> str:
    """Return the table of signs that are not typed in one way everywhere."""
    if not signs:
        return ""
    head = ("sign", *(SYSTEM_WORDS[system] for system in SYSTEMS))
    rows = [(one.sign, *(_way(one, system) for system in SYSTEMS)) for one in signs]
    return f"Typed in different ways:\n\n{table([head, *rows])}"


def _way(one: SignOnSystems, system: System) -> str:
    way = one.ways[system]
    return "-" if way is None else ", ".join(_stroke(stroke, system) for stroke in way)


def _stroke(stroke: KeyStroke, system: System) -> str:
    names = ["Option" if name == "Alt" else name for name in modifier_names(stroke.modifiers)]
    return "+".join([*names, word_of(stroke.usage)])
