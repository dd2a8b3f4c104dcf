"""Slow files: names, layers, actions, and what is allowed."""

from __future__ import annotations

from random import Random

from matrixgen.source.limits import LIMITS
from tests.hostile.slow_files.shapes import (
    PADDED,
    count_of,
    filled,
    keys_of,
    letters_of,
    plate_of,
    rows_of,
    shape,
)


@shape
def long_names_unknown_on_wires(size: float) -> str:
    """Each unknown key is compared with every key that there is."""
    known = keys_of(count_of(size), "n" * PADDED)
    head = "\n".join([*plate_of(rows_of(known)), "wiring", "  row r0 " + known[0]])
    lines = (f"    and {'n' * (PADDED - 4)}x{'n' * 4}{n}" for n in range(10**6))
    return filled(head, lines, size)


@shape
def short_names_unknown_on_wires(size: float) -> str:
    known = keys_of(count_of(size), "k")
    head = "\n".join([*plate_of(rows_of(known)), "wiring", "  row r0 " + known[0]])
    return filled(head, (f"    and q{n} r{n} s{n} t{n}" for n in range(10**6)), size)


@shape
def unknown_keys_allowed(size: float) -> str:
    known = keys_of(count_of(size), "n" * PADDED)
    lines = (f"  allow keys-overlap {'n' * (PADDED - 4)}x{'n' * 4}{n}" for n in range(10**6))
    return filled("\n".join([*plate_of(rows_of(known)), 'keyboard "Pad"']), lines, size)


@shape
def allowed_without_effect(size: float) -> str:
    keys = keys_of(count_of(size))
    lines = (f"  allow unreachable-layer {keys[n % len(keys)]}" for n in range(10**6))
    return filled(
        "\n".join([*plate_of(rows_of(keys)), *letters_of(keys), 'keyboard "Pad"']), lines, size
    )


@shape
def all_allowed_one_by_one(size: float) -> str:
    """As many warnings as there are keys, and more words for them than that."""
    keys = [f"{key}:30" for key in keys_of(count_of(size))]
    overlapping = ["plate", *(f"  cluster c{n} at 0, 0\n    line {k}" for n, k in enumerate(keys))]
    lines = (f"  allow keys-overlap k{n % len(keys)}" for n in range(10**6))
    return filled("\n".join([*overlapping, "", 'keyboard "Pad"']), lines, size)


@shape
def unknown_cells(size: float) -> str:
    keys = keys_of(count_of(size))
    layers = ["layer base"] + [f"layer l{n}" for n in range(1, LIMITS.layers)]
    lines = (
        line for layer in layers for line in (layer, *(f"  {key} = Backspacf{key}" for key in keys))
    )
    return filled("\n".join(plate_of(rows_of(keys))), lines, size)


@shape
def unknown_keys_in_layers(size: float) -> str:
    known = keys_of(count_of(size), "n" * PADDED)
    lines = (f"  {'n' * (PADDED - 4)}x{'n' * 4}{n} = A" for n in range(10**6))
    return filled("\n".join([*plate_of(rows_of(known)), "layer base"]), lines, size)


@shape
def actions_of_actions(size: float) -> str:
    lines = (f"  a{n} = tap a{n + 1}, hold a{n + 2}" for n in range(10**6))
    return filled("plate\n  line A B\n\nlayer base\n  A = a0\n\nactions", lines, size)


@shape
def unknown_actions(size: float) -> str:
    known = [f"  action-{n} = nothing" for n in range(4000)]
    keys = keys_of(count_of(size))
    lines = (
        line
        for n in range(LIMITS.layers)
        for line in (f"layer l{n}", *(f"  {key} = actoin-{n}-{key}" for key in keys))
    )
    head = [*plate_of(rows_of(keys)), "layer base", "  k0 = A", "actions", *known]
    return filled("\n".join(head), lines, size)


@shape
def unknown_layers(size: float) -> str:
    keys = keys_of(count_of(size))
    layers = [f"layer {'l' * PADDED}{n}\n  k0 = A" for n in range(LIMITS.layers - 1)]
    lines = (f"  a{n} = hold layer {'l' * (PADDED - 2)}xl{n}" for n in range(10**6))
    return filled("\n".join([*plate_of(rows_of(keys)), *layers, "actions"]), lines, size)


@shape
def layers_that_turn_on_each_other(size: float) -> str:
    keys = keys_of(count_of(size))
    count = count_of(size, LIMITS.layers)
    chance = Random("layers")
    words = ("hold layer", "latch layer", "once layer", "change base to")
    blocks = [
        line
        for n in range(count)
        for line in (
            "layer base" if n == 0 else f"layer l{n}",
            *(f"  {k} = {chance.choice(words)} l{chance.randrange(1, count)}" for k in keys),
        )
    ]
    return filled("\n".join(plate_of(rows_of(keys))), blocks, size)


@shape
def layers_that_need_layers(size: float) -> str:
    keys = keys_of(count_of(size))
    count = count_of(size, LIMITS.layers)
    blocks = ["layer base"]
    blocks += [
        f"  {key} = {('hold', 'latch')[n % 2]} layer l{n % count}" for n, key in enumerate(keys)
    ]
    for n in range(count - 1):
        needs = " and ".join(f"l{other}" for other in range(n))
        while_ = f" while {needs} are on" if n > 12 else ""
        blocks += [f"layer l{n}{while_}", *(f"  {key} = {n % 10}" for key in keys[n::3])]
    return filled("\n".join(plate_of(rows_of(keys))), blocks, size)


@shape
def taps_and_holds(size: float) -> str:
    keys = keys_of(count_of(size))
    count = count_of(size, LIMITS.layers)
    blocks = [
        line
        for n in range(count)
        for line in (
            "layer base" if n == 0 else f"layer l{n}",
            *(
                f"  {k} = tap A, hold layer l{1 + i % (count - 1)}, other hand"
                for i, k in enumerate(keys)
            ),
        )
    ]
    return filled("\n".join(plate_of(rows_of(keys))), blocks, size)
