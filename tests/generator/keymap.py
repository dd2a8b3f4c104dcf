"""The blocks `actions` and `layer`: every behaviour within each that may hold it."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from matrixgen.model import HoldLayer, StartBootLoader, TapHold
from matrixgen.source.limits import LIMITS
from matrixgen.source.phrases import PHRASES
from matrixgen.usages import usage_of
from matrixgen.usages.media import media_usage_of
from matrixgen.usages.pointer import pointer_usage_of
from tests.generator.words import (
    MEDIA,
    MODIFIERS,
    POINTER,
    QUOTED,
    SIGNS,
    SOMEWHERE_IN_TWO,
    TEXTS,
    names,
    press,
    usage_number,
)

Layers = dict[str, dict[str, str]]

HALVES = [
    phrase.form
    for kind, phrase in PHRASES.items()
    if kind not in (HoldLayer, TapHold, StartBootLoader)
]
"""What may be half of a key; a capital word stands for a name."""

WHOLE = [form for form in HALVES if form.islower()]
OF_A_LAYER = [form for form in HALVES if form.endswith(" layer NAME")]


def layer_names(chance: Random, most: int = LIMITS.layers) -> list[str]:
    """The layers above the base, from the bottom."""
    return names(chance, chance.choice((0, 1, 2, 3, 4, min(9, most - 1), most - 1)), "layer")


def plain(chance: Random, layers: list[str], *, texts: bool) -> str:
    """A phrase that may be half of a key: all but a hold, and the boot loader."""
    kinds = [lambda: press(chance), lambda: chance.choice(WHOLE)]
    kinds.append(lambda: f"once {'+'.join(chance.sample(MODIFIERS[:6], chance.choice((1, 2))))}")
    kinds += [lambda: chance.choice(MEDIA), lambda: chance.choice(POINTER)]
    kinds.append(lambda: usage_number(chance))
    kinds.append(lambda: f"change base to {chance.choice((*layers, 'base'))}")
    if texts:
        kinds += [
            lambda: f'type "{chance.choice(TEXTS)}"',
            lambda: chance.choice((*SIGNS, *QUOTED, '"!"')),
        ]
    if layers:
        of_a_layer = chance.choice(OF_A_LAYER)
        kinds += [lambda: of_a_layer.replace("NAME", chance.choice(layers))] * 2
    return chance.choice(kinds)()


def phrase(chance: Random, layers: list[str], *, texts: bool) -> str:
    """Any phrase of a list or of the block `actions`."""
    kind = chance.random()
    if kind < 0.15 and layers:
        return f"hold layer {chance.choice(layers)}"
    if kind < 0.2:
        return "start boot loader"
    if kind < 0.4:
        return tap_hold(chance, layers, texts=texts)
    if kind < 0.5:
        return in_turn(chance, texts=texts)
    if kind < 0.6:
        return with_modifier(chance, texts=texts)
    if kind < 0.7:
        return first_second(chance, layers, texts=texts)
    return plain(chance, layers, texts=texts)


def in_turn(chance: Random, *, texts: bool) -> str:
    """Several presses, texts and waits, one after the other."""
    steps = [press(chance) for _ in range(chance.choice((2, 2, 3, 20)))]
    if texts:
        steps = [f'type "{chance.choice(TEXTS)}"' if chance.random() < 0.3 else s for s in steps]
    for place in range(1, len(steps)):
        if chance.random() < 0.2:
            steps[place] = f"wait {chance.choice((10, 50, 2550))} ms"
    return ", then ".join(steps)


def with_modifier(chance: Random, *, texts: bool) -> str:
    """A press, and others with modifiers: each asks for other ones, of one side or of either."""

    def cell() -> str:
        if texts and chance.random() < 0.2:
            return f'type "{chance.choice(TEXTS)}"'
        alone = (*MEDIA, *(word for word in POINTER if not word.startswith("Pointer")))
        if chance.random() < 0.1:
            return usage_number(chance, pages=(0x0C,))
        return chance.choice(alone) if chance.random() < 0.1 else press(chance, with_key=True)

    asked = list(dict.fromkeys(asked_modifiers(chance) for _ in range(chance.choice((1, 1, 2, 9)))))
    return ", ".join([cell(), *(f"with {one} {cell()}" for one in asked)])


def first_second(chance: Random, layers: list[str], *, texts: bool) -> str:
    """Two presses or three that each do something, and maybe their time."""

    def part() -> str:
        if layers and chance.random() < 0.2:
            return f"hold layer {chance.choice(layers)}"
        return plain(chance, layers, texts=texts)

    presses = ("first", "second", "third")[: chance.choice((2, 2, 3))]
    time = [f"within {chance.choice((50, 250, 300, 2000))} ms"] if chance.random() < 0.4 else []
    return ", ".join([*(f"{one} {part()}" for one in presses), *time])


def asked_modifiers(chance: Random) -> str:
    """One side or either of some kinds of modifiers, in the order of the kinds."""
    names = [("Ctrl", "LeftCtrl", "RightCtrl"), ("Shift", "LeftShift", "RightShift")]
    names += [("Alt", "LeftAlt", "AltGr"), ("GUI", "LeftGUI", "RightGUI")]
    kinds = sorted(chance.sample(range(4), chance.choice((1, 1, 1, 2, 4))))
    return "+".join(chance.choice(names[kind]) for kind in kinds)


def tap_hold(chance: Random, layers: list[str], *, texts: bool) -> str:
    held = plain(chance, layers, texts=texts)
    if layers and chance.random() < 0.4:
        held = f"layer {chance.choice(layers)}"
    decisions = [
        f"after {chance.choice((50, 180, 200, 2000))} ms",
        f"by {chance.choice(('time', 'press', 'release'))}",
        f"roll {chance.choice((0, 100, 500))} ms",
        "other hand",
    ]
    some = chance.sample(decisions, chance.randint(0, 4))
    return ", ".join([f"tap {plain(chance, layers, texts=texts)}", f"hold {held}", *some])


def actions(chance: Random, layers: list[str], *, texts: bool) -> dict[str, str]:
    """Named actions; with `texts`, some type one."""
    count = chance.choice((0, 1, 4, 8))
    return {name: phrase(chance, layers, texts=texts) for name in names(chance, count, "act")}


def keymap(
    chance: Random,
    rows: list[list[str]],
    layers: list[str],
    named: dict[str, str],
    *,
    sound: bool,
    texts: bool,
    knobs: Sequence[str] = (),
) -> list[list[str]]:
    """Each layer as the lines of its block, the base first or last, or left out."""
    keys = [key for row in rows for key in row]
    blocks = []
    for layer in ("base", *layers):
        idle = [key for key in keys if layer == "base" and says_nothing(key)]
        if layer == "base" and not idle and chance.random() < 0.4:
            continue
        head = f"layer {layer}"
        others = [one for one in layers if one != layer]
        below = others[: layers.index(layer)] if layer != "base" else []
        if len(below) > 1 and chance.random() < 0.3:
            needed = chance.sample(below, chance.randint(2, min(3, len(below))))
            head += f" while {' and '.join(needed)} are on"
        is_picture = chance.random() < 0.4 and len(keys) < 200
        if not idle and not sound and chance.random() < 0.1:
            made = []
        elif is_picture:
            made = _picture(chance, rows, named, set(idle))
        else:
            made = _list(chance, keys, layers, named, idle, texts)
        if len(keys) > 1 and chance.random() < 0.3:
            most = min(LIMITS.together // LIMITS.layers, len(keys) // 2)
            for line in sets(chance, keys, layers, named, most, texts=texts):
                made.insert(chance.randrange(len(made) + 1), line)
        for line in steps(chance, knobs, layers, texts=texts) if knobs else ():
            made.insert(chance.randrange(len(made) + 1), line)
        blocks.append([head, *made])
    return blocks


def steps(chance: Random, knobs: Sequence[str], layers: list[str], *, texts: bool) -> list[str]:
    """Lines that give some steps of knobs an action: all that is over as soon as it was pressed."""
    every = [f"{knob}.{way}" for knob in knobs for way in ("left", "right")]
    kinds = (
        lambda: plain(chance, layers, texts=texts),
        lambda: with_modifier(chance, texts=texts),
        lambda: in_turn(chance, texts=texts),
    )
    some = chance.sample(every, chance.randint(0, len(every)))
    entries = [f"{step} = {chance.choice(kinds)()}" for step in some]
    places = range(0, len(entries), 2)
    return ["  ".join(entries[place : place + 2]) for place in places]


def sets(
    chance: Random,
    keys: list[str],
    layers: list[str],
    named: dict[str, str],
    most: int,
    *,
    texts: bool,
) -> list[str]:
    """Lines that give some keys together an action, no two of them for the same keys."""
    found: dict[frozenset[str], str] = {}
    for _ in range(chance.randint(1, most)):
        some = chance.sample(keys, min(len(keys), chance.choice((2, 2, 3, 4))))
        within = chance.choice(("", "", f" within {chance.choice((10, 35, 200))} ms"))
        once = {name: said for name, said in named.items() if not said.startswith("first ")}
        said = phrase(chance, layers, texts=texts)
        if chance.random() < 0.5 or said.startswith("first "):
            said = _cell(chance, once)
        found.setdefault(frozenset(some), f"together {' '.join(some)}{within} = {said}")
    return list(found.values())


def _cell(chance: Random, named: dict[str, str]) -> str:
    """One word, as a picture has it."""
    words = [press(chance), "nothing", chance.choice((*MEDIA, *POINTER)), *named]
    return chance.choice(words)


def says_nothing(key: str) -> bool:
    """Whether a key's name is the word of no usage: the base layer has to say what it does."""
    word = key if key in SIGNS else key.rpartition(".")[0] or key
    if word.startswith('"') or word in SOMEWHERE_IN_TWO:
        return True
    return all(usage(word) is None for usage in (usage_of, media_usage_of, pointer_usage_of))


def _picture(
    chance: Random, rows: list[list[str]], named: dict[str, str], idle: set[str]
) -> list[str]:
    def cell(key: str) -> str:
        return "~" if key not in idle and chance.random() < 0.4 else _cell(chance, named)

    return [" ".join(map(cell, row)) for row in rows]


def _list(
    chance: Random,
    keys: list[str],
    layers: list[str],
    named: dict[str, str],
    idle: list[str],
    texts: bool,
) -> list[str]:
    chosen = chance.sample(keys, min(len(keys), chance.choice((1, 2, 5, 20))))
    chosen = list(dict.fromkeys([*chosen, *idle]))
    entries = []
    for key in chosen:
        said = (
            _cell(chance, named) if chance.random() < 0.5 else phrase(chance, layers, texts=texts)
        )
        entries.append(f"{key} = {said}")
    lines: list[str] = []
    while entries:
        count = chance.randint(1, 3)
        lines.append("  ".join(entries[:count]))
        entries = entries[count:]
    return lines
