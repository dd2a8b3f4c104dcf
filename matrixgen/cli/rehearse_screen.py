"""The screen of a rehearsal as lines of text: the plate, what is on, what left."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.rehearse_text import does, lingers, reported
from matrixgen.draw import plate_rows, widest_unit
from matrixgen.draw.caps import cap_of, cut
from matrixgen.model import Keyboard
from matrixgen.rehearse.fingers import TYPED_MS
from matrixgen.rehearse.session import LiveRehearsal

DOWN, OPEN = "*", "?"
"""What stands before a key that is down, and before one whose press is not decided."""

LEAST_REPORTS = 4
"""Reports that must have room before rows of keys are spaced."""

LEGEND = f"each key's name, and below it what it would do now; {DOWN} is down, {OPEN} undecided"
HELP = "letters press keys | :+Key :-Key :wait 200 | Ctrl-T holds keys | Esc Esc leave"


def screen(session: LiveRehearsal, width: int, height: int) -> list[str]:
    """Return what to show, `height` lines of at most `width` letters.

    The plate is at the top, what is typed at the bottom, and between them as many reports as there
    is room for, the last one first.
    """
    typed = f":{session.line}" if session.line is not None else session.message
    below = [typed, HELP]
    room = max(height - len(below), 0)
    state, rows = list(_state(session)), _plate(session, width - 1)
    is_airy = len(state) + 3 * len(rows) + LEAST_REPORTS + 3 <= room
    plate = [line for row in rows for line in (*row, *([""] if is_airy else []))]
    reports = [f"{one.at_ms:>8} ms  {reported(one.report)}" for one in reversed(session.reports)]
    above = [_title(session), LEGEND, "", *plate, *([] if is_airy else [""]), *state, *reports]
    shown = above[:room]
    lines = [*shown, *[""] * (room - len(shown)), *below]
    return [cut(clean(line), width - 1) for line in lines[-height:]]


def _title(session: LiveRehearsal) -> str:
    how = (
        "typed keys stay down until typed again"
        if session.fingers.stay
        else f"typed keys are released after {TYPED_MS} ms"
    )
    name = session.fingers.keyboard.identity.product or "keyboard without a name"
    return f"{name}  |  {session.rehearsal.now_ms / 1000:.1f} s  |  {how}"


def _plate(session: LiveRehearsal, width: int) -> list[list[str]]:
    """Return two lines for each row of keys: their names, and what they would do now."""
    machine = session.rehearsal.machine
    keyboard: Keyboard = session.fingers.keyboard
    unit = widest_unit(keyboard.keys, width)
    event = machine.undecided()
    names, caps = {}, {}
    for switch in keyboard.keys:
        key, room = switch.name.text, max(int(unit * switch.width), unit) - 1
        mark = DOWN if key in machine.closed else ""
        mark = OPEN if event and event.key == key else mark
        names[key] = cut(mark + clean(key), room)
        caps[key] = clean(cap_of(machine.action_of(key), room))
    return plate_rows(keyboard.keys, (names, caps), unit)


def _state(session: LiveRehearsal) -> Iterator[str]:
    machine = session.rehearsal.machine
    yield f"layers: {', '.join(machine.layers_on())}"
    down = [key for key in machine.scanned if key in machine.closed]
    yield f"down: {', '.join(down) or 'nothing'}"
    event = machine.undecided()
    if event:
        since = session.rehearsal.now_ms - event.at_ms
        phrase = machine.action_of(event.key).phrase
        yield f"undecided: {event.key}, pressed {since} ms ago: {phrase}"
    elif session.last:
        yield f"last press: {session.last.key}, {does(session.last)}"
    else:
        yield "type letters to press the keys of these names"
    if session.rehearsal.planned:
        to_come = (f"{'+' if one.down else '-'}{one.key}" for one in session.rehearsal.planned)
        yield f"to come: {' '.join(to_come)}"
    if session.lingers.next_key or session.lingers.pressed_again:
        yield lingers(session.lingers)
