"""Keyboards that use what the language has, in every mixture: text that `check` passes.

Sizes go up to what the controller's pins and the language allow: 32 layers, hundreds of actions.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from itertools import product

from matrixgen.boards import Profile
from matrixgen.families import FAMILIES, Family
from matrixgen.model import LOCKS
from matrixgen.source.limits import LIMITS

USAGES = [*"ABCDEFGHIJKLMNOPQRSTUVWXYZ", *"1234567890", *(f"F{n}" for n in range(1, 25)), "Home"]
MODIFIERS = ("", "Ctrl+", "Shift+", "Alt+", "GUI+", "Ctrl+Shift+", "Ctrl+Alt+", "Shift+Alt+")
MEDIA = ["VolumeUp", "VolumeDown", "Mute", "PlayPause", "StopMedia", "NextTrack", "PreviousTrack"]
POINTER = ["PointerLeft", "PointerUp", "Button1", "Button2", "WheelUp", "WheelRight"]
LETTERS = "abcdefghijklm NOPQRSTUVWXYZ 0123456789"
PRESSES = [modifier + usage for modifier, usage in product(MODIFIERS, USAGES)]


@dataclass
class Parts:
    """What the file is made of as it grows: settings, cells by layer and key, heads of layers."""

    chance: random.Random
    free: list[str]
    family: Family
    settings: list[str] = field(default_factory=list)
    layers: dict[str, dict[str, str]] = field(default_factory=dict)
    needs: dict[str, str] = field(default_factory=dict)
    knobs: list[str] = field(default_factory=list)
    lights: list[str] = field(default_factory=list)
    sets: dict[str, list[str]] = field(default_factory=dict)

    def wants(self) -> bool:
        """Return whether the keyboard uses the next thing that it may have, half of the time."""
        return self.chance.random() < 0.5 and len(self.free) > 1

    def put(self, action: str, layer: str = "base") -> str:
        """Give a key that nothing else uses an action, and return the key."""
        key = self.free.pop()
        self.layers["base"][key] = "Home"
        self.layers[layer][key] = action
        return key


def random_text(chance: random.Random, profile: Profile) -> str:
    """Return a file for a controller, drawn up to the limits of both."""
    pins = [pin.name for pin in profile.usable_pins if pin.output and pin.pull_up]
    if chance.random() < 0.5:
        chance.shuffle(pins)
    rows = chance.randint(1, min(LIMITS.lines_per_axis, len(pins) - 1))
    columns = chance.randint(1, min(LIMITS.lines_per_axis, len(pins) - rows))
    if chance.random() < 0.6:  # most keyboards are nearer to a square
        rows = chance.randint(2, min(8, len(pins) // 2))
        columns = chance.randint(2, min(LIMITS.lines_per_axis, len(pins) - rows))
    return _text(chance, profile, pins, rows, columns)


def _text(chance: random.Random, profile: Profile, pins: list[str], rows: int, columns: int) -> str:
    keys = [[f"K{row * columns + column}" for column in range(columns)] for row in range(rows)]
    flat = [key for row in keys for key in row]
    parts = Parts(chance, chance.sample(flat, len(flat)), FAMILIES[profile.port or ""])
    _layers(parts)
    _settings(parts)
    _behaviours(parts)
    _fill(parts)
    _knobs(parts, len(pins) - rows - columns)
    _lights(parts, len(pins) - rows - columns - 2 * len(parts.knobs))
    name = "Wader " * chance.randint(1, 10)
    text = [f'keyboard "{name}{len(flat)}"', f"  controller {profile.name}"]
    text += [f"  {line}" for line in parts.settings]
    text += ["", "plate", *(f"  line {' '.join(row)}" for row in keys), ""]
    text += _wiring(chance, keys, pins, parts)
    for name, cells in parts.layers.items():
        text += ["", f"layer {name}{parts.needs.get(name, '')}"]
        text += [f"  {key} = {action}" for key, action in cells.items()]
        text += [f"  {one}" for one in parts.sets.get(name, ())]
    return "\n".join(text) + "\n"


def _wiring(
    chance: random.Random, keys: list[list[str]], pins: list[str], parts: Parts
) -> list[str]:
    drive, sense = chance.choice((("rows", "columns"), ("columns", "rows")))
    on = iter(pins)
    return [
        "wiring",
        f"  drive {drive}, sense {sense}",
        f"  diodes 1N4148, band toward {drive}",
        *(f"  row r{n} on {next(on)}  {' '.join(row)}" for n, row in enumerate(keys)),
        *(
            f"  column c{n} on {next(on)}  {' '.join(column)}"
            for n, column in enumerate(zip(*keys, strict=True))
        ),
        *(f"  {knob} on {next(on)} {next(on)}" for knob in parts.knobs),
        *(light.replace("PIN", next(on)) for light in parts.lights),
    ]


def _layers(parts: Parts) -> None:
    """Make layers, each with a key of its own that turns it on."""
    parts.layers["base"] = {}
    most = min(LIMITS.layers, 1 + len(parts.free) // 3)
    few, many = parts.chance.choice(((1, 1), (2, 2), (3, 8), (9, 16), (17, LIMITS.layers)))
    for place in range(1, min(most, parts.chance.randint(few, many))):
        parts.layers[f"l{place}"] = {}
        parts.put(parts.chance.choice(("hold", "latch")) + f" layer l{place}")


def _settings(parts: Parts) -> None:
    if parts.wants():
        parts.settings.append(f"debounce {parts.chance.randint(1, 12)} ms, press 1 ms")
    if parts.wants():
        parts.settings.append('maker "A workshop of some renown"')
    if parts.wants():
        parts.settings.append("usb 1234:5678")


def _behaviours(parts: Parts) -> None:
    """Give some keys what a behaviour does, and the file the settings that go with them."""
    chance, names = parts.chance, [name for name in parts.layers if name != "base"]
    if parts.wants():
        parts.put("once " + chance.choice(("Shift", "Ctrl", "Alt")))
        if names and parts.wants():
            parts.put(f"once layer {chance.choice(names)}")
        if parts.wants():
            parts.settings.append("once lasts 1500 ms")
    if parts.wants():
        _tap_holds(parts, names)
    if parts.wants():
        for word in chance.sample(MEDIA, chance.randint(1, min(len(MEDIA), len(parts.free) - 1))):
            parts.put(word)
    if parts.wants():
        parts.put("Sleep")
    if parts.wants():
        for word in chance.sample(POINTER, chance.randint(1, min(4, len(parts.free) - 1))):
            parts.put(word)
    if parts.wants():
        _in_turn(parts)
    if parts.wants():
        _with_modifiers(parts)
    if parts.wants():
        _sets(parts)
    if parts.wants():
        _presses(parts, names)
    _of_layers(parts, names)
    _boot_loader(parts, names)


def _tap_holds(parts: Parts, names: list[str]) -> None:
    chance = parts.chance
    last = ", other hand" if parts.wants() else ""
    for place in range(chance.randint(1, min(12, len(parts.free) - 1))):
        held = f"layer {chance.choice(names)}" if names and place % 2 else "Shift"
        times = f"after {150 + 10 * place} ms, by {chance.choice(('time', 'press', 'release'))}"
        parts.put(f"tap {USAGES[place]}, hold {held}, {times}{last}")


def _with_modifiers(parts: Parts) -> None:
    """Draw keys that go by modifiers, up to four of them a key."""
    chance = parts.chance
    for place in range(chance.randint(1, min(12, len(parts.free) - 1))):
        kinds = chance.sample(("Shift", "Ctrl", "LeftAlt", "RightGUI"), chance.randint(1, 4))
        others = (f"with {kind} {chance.choice(PRESSES)}" for kind in kinds)
        parts.put(", ".join([USAGES[place], *others]))


def _sets(parts: Parts) -> None:
    """Draw sets of keys that are one action, up to twenty of them, on some layers."""
    chance = parts.chance
    keys = list(parts.layers["base"]) + parts.free
    if len(keys) < 2:
        return
    found = set()
    for place in range(chance.randint(1, 20)):
        some = frozenset(chance.sample(keys, chance.randint(2, min(4, len(keys)))))
        if some not in found:
            found.add(some)
            said = f"together {' '.join(sorted(some))} = {USAGES[place]}"
            parts.sets.setdefault(chance.choice(list(parts.layers)), []).append(said)


def _presses(parts: Parts, names: list[str]) -> None:
    """Draw keys that do something else when they are pressed again."""
    chance = parts.chance
    for place in range(chance.randint(1, min(12, len(parts.free) - 1))):
        last = f"latch layer {chance.choice(names)}" if names and place % 2 else "Shift"
        third = f", third {chance.choice(PRESSES)}" if parts.wants() else ""
        parts.put(f"first {USAGES[place]}, second {last}{third}, within {150 + 10 * place} ms")


def _in_turn(parts: Parts) -> None:
    """Draw keys that type in turn: texts up to some hundred letters, and several keys."""
    chance = parts.chance
    parts.settings.append("computer us")
    for place in range(chance.randint(1, min(12, len(parts.free) - 1))):
        text = "".join(chance.choices(LETTERS, k=chance.choice((2, 12, 200))))
        several = f"Ctrl+{USAGES[place]}, then wait {10 * (place + 1)} ms, then Enter"
        parts.put(several if chance.random() < 0.3 else f'type "{text}"')


def _of_layers(parts: Parts, names: list[str]) -> None:
    if names and parts.wants():
        there = parts.chance.choice(names)
        key = parts.put(f"change base to {there}")
        parts.layers[there][key] = "change base to base"
        if parts.family.keeps_bytes and parts.wants():
            parts.settings.append("remember base")
    if len(names) > 1 and len(parts.layers) < LIMITS.layers and parts.wants():
        one, other = parts.chance.sample(names, 2)
        parts.layers["joint"] = {}
        parts.needs["joint"] = f" while {one} and {other} are on"
        parts.put("F1", "joint")


def _boot_loader(parts: Parts, names: list[str]) -> None:
    if names and parts.wants():
        parts.put("start boot loader", parts.chance.choice(names))
    if parts.family.double_reset and parts.wants():
        parts.settings.append("boot-loader double reset")
    if len(parts.free) > 3 and parts.wants():
        parts.settings.append(f"boot-loader hold {' '.join(parts.free[-3:])}")


def _knobs(parts: Parts, pins: int) -> None:
    """Draw knobs for pins that are left, with steps that press keys."""
    if pins < 2 or not parts.wants():
        return
    for place in range(parts.chance.randint(1, min(3, pins // 2))):
        parts.knobs.append(f"knob dial{place}")
        for way in ("left", "right"):
            parts.layers["base"][f"dial{place}.{way}"] = parts.chance.choice(PRESSES)


def _lights(parts: Parts, pins: int) -> None:
    """Draw lights for pins that are left: of locks, and of layers that keys turn on."""
    chance, names = parts.chance, [name for name in parts.layers if name[0] == "l"]
    if pins < 1 or not parts.wants():
        return
    some = chance.sample(LOCKS, chance.randrange(4))
    shown = [(lock, "") for lock in some]
    if names:
        shown += [(f"s{n}", f" while {chance.choice(names)} is on") for n in range(4)]
    for name, of in shown[: chance.randint(1, min(pins, 8))]:
        side = chance.choice(("ground", "supply"))
        parts.lights.append(f"  light {name} on PIN at 1 mA to {side}{of}")


def _fill(parts: Parts) -> None:
    """Give what keys are left an action on the base, and some of them one on each layer."""
    presses = parts.chance.sample(PRESSES, parts.chance.choice((20, 60, len(PRESSES))))
    share = parts.chance.random()
    for name, cells in parts.layers.items():
        for key in parts.free:
            if name == "base" or parts.chance.random() < share:
                cells[key] = parts.chance.choice(presses)
        if not cells:
            cells[parts.free[0]] = "F1"
