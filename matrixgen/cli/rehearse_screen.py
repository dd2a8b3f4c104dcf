"""The screen of a rehearsal as lines of text: the plate, what is on, what left."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.cli.fit_to_print import clean
from matrixgen.draw import Captions, legend_lines, plate_rows, room_of, widest_unit
from matrixgen.draw.caps import cut
from matrixgen.draw.caption_form import Legend
from matrixgen.model.knob import steps_of
from matrixgen.record import Record
from matrixgen.rehearse.fingers import TYPED_MS
from matrixgen.rehearse.happening import LockTold
from matrixgen.rehearse.plan import KnobMoved, Moved
from matrixgen.rehearse.script import LIGHT
from matrixgen.rehearse.session import LiveRehearsal
from matrixgen.usages import is_word
from matrixgen.usages.keycaps import forms_of

DOWN, OPEN = "*", "?"
"""What stands before a key that is down, and before one whose press is not decided."""

LEAST_REPORTS, AIRY_REPORTS = 2, 4
"""Reports that always have room, and those that must have it before rows of keys are spaced."""


class KeyRows(Record):
    """The rows of keys, each with its lines of text, and what short forms in them mean."""

    rows: list[list[str]]
    legend: Legend


LEAST_ROOM = 2
"""Characters of what a key would do, at least."""

LEGEND = f"each key's name, and below it what it would do now; {DOWN} is down, {OPEN} undecided"
HELP = (
    "Esc Esc leaves",
    "letters press keys",
    "Ctrl-T holds keys",
    ":+Key :-Key :wait 200",
)


def screen(session: LiveRehearsal, width: int, height: int) -> list[str]:
    """Return what to show, `height` lines of at most `width` characters.

    The plate is at the top, what is typed and how to leave at the bottom, and between them what is
    on and as many reports as there is room for, the last one first. If there is little room, the
    plate gets smaller, and less of it is shown.
    """
    typed = f":{session.line}" if session.line is not None else session.message
    below = [typed, _help(width)]
    room = max(height - len(below), 0)
    state = list(_state(session))[: max(room - LEAST_REPORTS, 1)]
    plate = _fitting(session, width - 1, room - len(state))
    reports = [f"{one.at_ms:>8} ms  {one.words}" for one in reversed(session.reports)]
    shown = [*plate, *state, *reports][:room]
    lines = [*shown, *[""] * (room - len(shown)), *below]
    return [cut(clean(line), width - 1) for line in lines[-height:]]


def _help(width: int) -> str:
    """Return how to leave, and as much of the rest as there is room for."""
    shown = HELP[0]
    for part in HELP[1:]:
        if len(shown) + len(f" | {part}") < width:
            shown += f" | {part}"
    return shown


def _fitting(session: LiveRehearsal, width: int, room: int) -> list[str]:
    """Return the plate with as much around it as leaves room for the last reports."""
    plate = _plate(session, width, is_small=False)
    head, short = [_title(session), LEGEND, ""], legend_lines(plate.legend, width)
    close = [line for row in plate.rows for line in row]
    airy = [line for row in plate.rows for line in (*row, "")]
    for lines, reports in (
        ([*head, *airy, *short, *([""] if short else [])], AIRY_REPORTS),
        ([*head, *close, "", *short], LEAST_REPORTS),
        ([*head, *close, ""], LEAST_REPORTS),
        (close, LEAST_REPORTS),
    ):
        if len(lines) + reports <= room:
            return lines
    small = [line for row in _plate(session, width, is_small=True).rows for line in row]
    return small[: max(room - LEAST_REPORTS, 0)]


def _title(session: LiveRehearsal) -> str:
    how = (
        "typed keys stay down until typed again"
        if session.fingers.stay
        else f"typed keys are released after {TYPED_MS} ms"
    )
    name = session.fingers.keyboard.identity.product or "keyboard without a name"
    return f"{name}  |  {session.rehearsal.now_ms / 1000:.1f} s  |  {how}"


def _plate(session: LiveRehearsal, width: int, *, is_small: bool) -> KeyRows:
    """Return the lines of each row of keys: their names, and what they would do now."""
    keys = session.fingers.keyboard.keys
    machine, captions = session.rehearsal.machine, Captions(layout=session.layout)
    unit = widest_unit(keys, width)
    names, caps = {}, {}
    for switch in keys:
        key, room = switch.name.text, room_of(switch, unit, LEAST_ROOM)
        mark = _mark(session, key)
        names[key] = mark + _short_name(clean(key), room - len(mark))
        caps[key] = clean(captions.caption(machine.action_of(key), room))
    legend = captions.legend(caps.values())
    if is_small:
        marked = {key: _mark(session, key) + cap for key, cap in caps.items()}
        return KeyRows(plate_rows(keys, (marked,), unit), legend)
    return KeyRows(plate_rows(keys, (names, caps), unit), legend)


def _mark(session: LiveRehearsal, key: str) -> str:
    """Return the sign of a key that is down or undecided."""
    event = session.rehearsal.machine.undecided()
    if event and event.key == key:
        return OPEN
    return DOWN if key in session.rehearsal.machine.closed else ""


def _to_come(move: Moved) -> str:
    if isinstance(move, KnobMoved):
        return steps_of(move.knob)[move.way > 0]
    if isinstance(move, LockTold):
        return f"{LIGHT} {move.lock}"
    return f"{'+' if move.down else '-'}{move.key}"


def _short_name(name: str, room: int) -> str:
    """Return a key's name, shorter if need be: as a keycap's word if it is one."""
    forms = forms_of(name) if is_word(name) else ()
    return next((form for form in forms if len(form) <= room), cut(name, room))


def _state(session: LiveRehearsal) -> Iterator[str]:
    machine = session.rehearsal.machine
    yield f"layers: {', '.join(machine.layers_on())}"
    if lights := machine.keyboard.wiring.lights:
        lit = machine.lit()
        names = [light.name.text for light in lights if light.name.text in lit]
        yield f"lights: {', '.join(names) or 'all dark'}"
    down = [key for key in machine.scanned if key in machine.closed]
    yield f"down: {', '.join(down) or 'nothing'}"
    event = machine.undecided()
    if event:
        since = session.rehearsal.now_ms - event.at_ms
        key, phrase = machine.open_words(event)
        yield f"undecided: {key}, pressed {since} ms ago: {phrase}"
    elif session.last:
        yield f"last press: {session.last.key}, {session.last.words}"
    else:
        yield "type letters to press the keys of these names"
    if session.rehearsal.planned:
        yield f"to come: {' '.join(map(_to_come, session.rehearsal.planned))}"
    if session.lingers.next_key or session.lingers.pressed_again:
        yield session.lingers.words
    text = session.rehearsal.text()
    if text is not None:
        yield text.words
