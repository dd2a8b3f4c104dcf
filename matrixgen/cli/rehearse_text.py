"""What happens in a rehearsal, a line each: millisecond, key, what."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import assert_never

from matrixgen.cli.fit_to_print import clean
from matrixgen.rehearse.happening import (
    Appeared,
    BootLoaderStarts,
    Does,
    Ends,
    Happening,
    KeyMoved,
    LayersOn,
    LightsLit,
    Lingers,
    LockTold,
    Reported,
    TextShown,
    Undecided,
    Waits,
)
from matrixgen.rehearse.report_words import Report

OfKey = KeyMoved | Undecided | Waits | Does
"""What one key does, or what becomes of its press."""


def lines(found: Sequence[Happening]) -> Iterator[str]:
    """Yield a line for each thing that happened.

    What a press does at once stands in the line of the press.
    """
    wide = max((len(clean(one.key)) for one in found if isinstance(one, OfKey)), default=0)
    rest = iter((*found, None))
    one = next(rest)
    while one is not None:
        after = next(rest)
        line = f"{one.at_ms:>6} ms  {_sign(one)} {_key(one):<{wide}}  {words(one)}"
        if after is not None and _goes_with(one, after):
            line += words(after)
            after = next(rest)
        if not isinstance(one, Ends) or words(one):
            yield line.rstrip()
        one = after


def _goes_with(one: Happening, after: Happening) -> bool:
    """Whether the second is what the press of the first does, in the same millisecond."""
    is_press = isinstance(one, KeyMoved) and one.down
    is_effect = is_press and isinstance(after, Undecided | Waits | Does)
    return is_effect and one.at_ms == after.at_ms and _key(one) == _key(after)


def _sign(one: Happening) -> str:
    return ("+" if one.down else "-") if isinstance(one, KeyMoved) else " "


def _key(one: Happening) -> str:
    return clean(one.key) if isinstance(one, OfKey) else ""


def words(one: Happening) -> str:
    """Return what happened, without its time and its key; nothing for a move, which is its sign."""
    match one:
        case KeyMoved():
            return ""
        case LockTold():
            return f"the computer says {one.lock}"
        case LightsLit():
            return f"lights: {clean(', '.join(one.lights)) or 'all dark'}"
        case Undecided():
            return f"undecided: {one.action}"
        case Waits():
            return f"waits until {clean(one.behind)} is decided"
        case Does():
            return does(one)
        case LayersOn():
            return f"layers: {clean(', '.join(one.layers))}"
        case Lingers():
            return lingers(one)
        case Reported():
            return reported(one.report)
        case Appeared():
            return written(one)
        case TextShown():
            return f"text: {text_with_caret(one)}"
        case BootLoaderStarts():
            early = "; what is left of the script is not played" if one.early else ""
            return f"the keyboard leaves USB and becomes its boot loader{early}"
        case Ends():
            return ends(one)
        case _:
            assert_never(one)


def does(one: Does) -> str:
    """Return what a press does, after what it was taken for."""
    if one.decided is None:
        return clean(one.action)
    return clean(f"decided: {one.decided} {one.action.removeprefix('hold ')}")


def lingers(one: Lingers) -> str:
    """Return what is on for the next key, and what until it is pressed again."""
    parts = []
    if one.next_key:
        parts.append(f"for the next key: {clean(', '.join(one.next_key))}")
    if one.pressed_again:
        parts.append(f"until pressed again: {clean(', '.join(one.pressed_again))}")
    return "; ".join(parts) or "nothing waits for the next key"


def reported(report: Report) -> str:
    """Return what the host gets."""
    of = "" if report.of == "keyboard" else f"{report.of} "
    return f"{of}report: {report.words}"


BLANKS = {" ": "a space", "\n": "a line break", "\t": "a tab"}


def written(one: Appeared) -> str:
    """Return what the computer writes, and the dead key that waits there."""
    parts = [f"writes {clean(BLANKS.get(one.text, one.text))}"] if one.text else []
    if one.dead_key:
        parts.append(f"the dead key {clean(one.dead_key)} waits for the next key")
    return "; ".join(parts)


def text_with_caret(text: TextShown) -> str:
    """Return a text in quotes, in two parts if the caret is within it."""
    parts = [text.before, text.after] if text.after else [text.before]
    return ", caret, ".join(clean(json.dumps(part, ensure_ascii=False)) for part in parts)


def ends(one: Ends) -> str:
    """Return what is still down and undecided at the end; nothing where nothing is."""
    parts = []
    if one.down:
        parts.append(f"still down: {clean(', '.join(one.down))}")
    if one.undecided:
        parts.append(f"still undecided: {clean(', '.join(one.undecided))}")
    return "; ".join(parts)
