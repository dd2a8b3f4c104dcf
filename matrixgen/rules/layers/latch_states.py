"""Which layers can stay on without a finger, and what can follow on what."""

from __future__ import annotations

from matrixgen.model.layer_effects import LayersLeft
from matrixgen.model.layer_states import FEW_KEYS, MOST_STATES, LayerKeys

Steps = dict[LayersLeft, set[LayersLeft]]
"""What stays on by itself, and what one press makes of each such state."""


def latch_steps(keys: LayerKeys) -> Steps | None:
    """Return, for each state that presses can leave behind, those that one press makes of it.

    None where there are more sets than the rules are willing to try.
    """
    steps: Steps = {}
    waiting, tried = [LayersLeft()], 0
    while waiting:
        left = waiting.pop()
        if left in steps:
            continue
        steps[left] = set()
        first = keys.with_needing(left.layers)
        seen, active_sets = {first}, [first]
        while active_sets:
            active = active_sets.pop()
            tried += 1 + len(keys.turning) // FEW_KEYS
            if tried > MOST_STATES:
                return None
            before = left._replace(once=active & ~left.layers)  # for a while, by `once` or held
            for effect in keys.effects_on(active):
                steps[left].add(effect.pressed(before).after_typing())
                more = keys.with_needing(active | effect.held)
                if more not in seen:
                    seen.add(more)
                    active_sets.append(more)
        waiting += steps[left]
    return steps


def traps(steps: Steps, bit: int) -> bool:
    """Whether from some set with a bit no set without it can be reached."""
    before: Steps = {state: set() for state in steps}
    for state, following in steps.items():
        for after in following:
            before[after].add(state)
    escaping = {state for state in steps if not state.layers & bit}
    waiting = list(escaping)
    while waiting:
        new = before[waiting.pop()] - escaping
        escaping |= new
        waiting += new
    return len(escaping) < len(steps)
