"""Which layers can stay on without a finger, and what can follow on what."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Keyboard, LayerTurn
from matrixgen.model.layer_states import BASE_ALONE, MOST_STATES, LayerKeys

Steps = dict[int, set[int]]
"""Sets of layers that stay on by themselves, and a changed base: what one press makes of each."""


def latch_steps(keyboard: Keyboard) -> Steps | None:
    """Return, for each set of layers that can be latched, the sets that one press makes of it.

    None where there are more sets than the rules are willing to try.
    """
    keys = LayerKeys(keyboard)
    steps: Steps = {}
    waiting, tried = [BASE_ALONE], 0
    while waiting:
        latched = waiting.pop()
        if latched in steps:
            continue
        steps[latched] = set()
        first = keys.with_needing(latched)
        seen, active_sets = {first}, [first]
        while active_sets:
            active = active_sets.pop()
            tried += 1
            if tried > MOST_STATES:
                return None
            for turn in (turn for key in keys.turning for turn in keys.turns_of(key, active)):
                steps[latched].update(_kept(keys, latched, active, turn))
                more = keys.with_needing(active | _for_a_while(keys, turn))
                if more not in seen:
                    seen.add(more)
                    active_sets.append(more)
        waiting += steps[latched]
    return steps


def _kept(keys: LayerKeys, latched: int, active: int, turn: LayerTurn) -> Iterator[int]:
    """Yield the sets that a turn leaves behind where no finger is needed for them."""
    layer = 1 << keys.number_of[turn.layer]
    if turn.lasts == "for good":
        yield keys.with_base(latched, turn.layer)
    elif turn.lasts == "until pressed again":
        yield latched ^ layer
    elif turn.lasts == "for the next key" and active & layer:
        yield latched ^ layer  # pressed twice, or once more to end that


def _for_a_while(keys: LayerKeys, turn: LayerTurn) -> int:
    """Return the layer that a turn has on while its key is down, or for the next one."""
    lasting = turn.lasts in ("while down", "for the next key")
    return 1 << keys.number_of[turn.layer] if lasting else 0


def traps(steps: Steps, bit: int) -> bool:
    """Whether from some set with a bit no set without it can be reached."""
    before: Steps = {state: set() for state in steps}
    for state, following in steps.items():
        for after in following:
            before[after].add(state)
    escaping = {state for state in steps if not state & bit}
    waiting = list(escaping)
    while waiting:
        new = before[waiting.pop()] - escaping
        escaping |= new
        waiting += new
    return len(escaping) < len(steps)
