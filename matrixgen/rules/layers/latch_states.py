"""Which sets of layers can be latched, and where each set can go from there."""

from __future__ import annotations

from matrixgen.model import Keyboard
from matrixgen.model.layer_states import BASE_ALONE, MOST_STATES, LayerKeys


def latch_steps(keyboard: Keyboard) -> dict[int, set[int]] | None:
    """Return, for each set of layers that can be latched, the sets that one press makes of it.

    None where there are more sets than the rule is willing to try.
    """
    keys = LayerKeys(keyboard)
    steps: dict[int, set[int]] = {}
    waiting, tried = [BASE_ALONE], 0
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
            for turn in (turn for key in keys.turning for turn in keys.turns_of(key, active)):
                layer = 1 << keys.number_of[turn.layer]
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
