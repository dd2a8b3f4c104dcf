"""Which sets of layers can be latched, and where each set can go from there.

A set of layers is a number with bit n set for `keyboard.layers[n]`; the base layer's bit, 0, is
always set.
"""

from __future__ import annotations

from matrixgen.model import Action, Keyboard, LayerTurn, layer_turns

MOST_STATES = 4096
"""Sets of layers tried before giving up: enough for some ten independent latches."""

Cells = list[dict[int, Action]]


def latch_steps(keyboard: Keyboard) -> dict[int, set[int]] | None:
    """Return, for each set of layers that can be latched, the sets that one press makes of it.

    None where there are more sets than the rule is willing to try.
    """
    number_of = {layer.name.text: n for n, layer in enumerate(keyboard.layers)}
    cells = _cells_with_layer_actions(keyboard)
    steps: dict[int, set[int]] = {}
    waiting, tried = [1], 0
    while waiting:
        latched = waiting.pop()
        if latched in steps:
            continue
        steps[latched] = set()
        seen, active_sets = {latched}, [latched]
        while active_sets:
            active = active_sets.pop()
            tried += 1
            if tried > MOST_STATES:
                return None
            for cell in cells:
                for turn in _turns(cell, active):
                    layer = 1 << number_of[turn.layer]
                    if turn.lasts == "until pressed again":
                        steps[latched].add(latched ^ layer)
                    elif active | layer not in seen:
                        seen.add(active | layer)
                        active_sets.append(active | layer)
        waiting += steps[latched]
    return steps


def traps(steps: dict[int, set[int]], layer: int) -> bool:
    """Whether from some set with the bit `layer` no set without it can be reached."""
    before: dict[int, set[int]] = {state: set() for state in steps}
    for state, following in steps.items():
        for after in following:
            before[after].add(state)
    escaping = {state for state in steps if not state & layer}
    waiting = list(escaping)
    while waiting:
        new = before[waiting.pop()] - escaping
        escaping |= new
        waiting += new
    return len(escaping) < len(steps)


def _cells_with_layer_actions(keyboard: Keyboard) -> Cells:
    """Return the actions by layer number of each key that turns some layer on or off."""
    by_key: dict[str, dict[int, Action]] = {}
    turning: set[str] = set()
    for number, layer in enumerate(keyboard.layers):
        for cell in layer.cells:
            by_key.setdefault(cell.key.text, {})[number] = cell.action
            if layer_turns(cell.action):
                turning.add(cell.key.text)
    return [by_key[key] for key in by_key if key in turning]


def _turns(cell: dict[int, Action], active: int) -> tuple[LayerTurn, ...]:
    """Return what a key turns on: by its action in the highest layer that is on and has one."""
    action = next((cell[n] for n in sorted(cell, reverse=True) if active >> n & 1), None)
    return layer_turns(action) if action else ()
