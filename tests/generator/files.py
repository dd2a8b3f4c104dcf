"""Whole files, drawn from the grammar: each part of a file from a seed of its own.

Two files with the same seeds but for one differ in that part alone, which makes a revision: so a
comparison or a merge knows what it should find. `tests/generator/test_grammar.py` says which
productions of the grammar were made, and to which limits.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from random import Random

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.model.light import LOCKS
from matrixgen.record import changed
from matrixgen.source.blocks.speeds import POINTER_STEPS, WHEEL_STEPS, WITHIN_MS
from matrixgen.source.limits import LIMITS, Limits
from tests.generator.components import Component, components, places, wired
from tests.generator.keymap import actions, keymap, layer_names
from tests.generator.plate import divided, plate
from tests.generator.wiring import Matrix, matrix, wiring
from tests.generator.words import COMPUTERS, key_names

PARTS = ("size", "settings", "plate", "wiring", "layers", "actions", "cells", "order")
"""What has a seed: how large it is and what its keys are called, then its blocks."""

REVISED = ("settings", "plate", "wiring", "actions", "cells")
"""Parts that a revision may change alone: the others mean the same keys, wires and layers."""

FEW_PLACES = changed(LIMITS, holes=2, areas=2)
"""For files of which there are many: each place is another line to read."""

BOARDS = [name for name in builtin_names() if builtin_profile(name).port]


@dataclass(frozen=True)
class Draft:
    """The seeds of a file. A sound one is finished, its diodes and pins as they should be."""

    seeds: tuple[int, ...]
    sound: bool
    most: Limits

    def chance(self, part: str) -> Random:
        return Random(f"{part} {self.seeds[PARTS.index(part)]}")

    def revised(self, part: str, seed: int) -> Draft:
        """The same file with another seed for a part."""
        place = PARTS.index(part)
        return replace(self, seeds=(*self.seeds[:place], seed, *self.seeds[place + 1 :]))

    @property
    def text(self) -> str:
        made = [self._keyboard(), ["plate", *self._plate[0]], *self._wired(), *self._keymap()]
        blocks = [block for block in made if block]
        chance = self.chance("order")
        if chance.random() < 0.3:
            layers = [block for block in blocks if block[0].startswith("layer")]
            others = [block for block in blocks if block not in layers]
            chance.shuffle(others)
            blocks = [*others, *layers]
        return "\n".join("\n  ".join(block) + "\n" for block in blocks)

    @property
    def _keys(self) -> list[str]:
        chance = self.chance("size")
        sizes = [n for n in (1, 2, 5, 12, 40, 64, 104, 300, LIMITS.keys) if n <= self.most.keys]
        pins = min(len(pins) for pins in self._pins) if self.sound else 2 * LIMITS.lines_per_axis
        return key_names(chance, min(chance.choice(sizes), (pins // 2) * (pins - pins // 2)))

    @property
    def _rows(self) -> list[list[str]]:
        return divided(self.chance("size"), self._keys)

    @property
    def _plate(self) -> tuple[list[str], list[list[str]]]:
        lines, rows = plate(self.chance("plate"), self._rows, self.most)
        chance = Random(f"components {self.chance('plate').random()}")
        for new in places(chance, self._components, sound=self.sound):
            lines.insert(chance.randint(0, len(lines)), new)
        return lines, rows

    @property
    def _components(self) -> list[Component]:
        """The lights and knobs; a sound file has as many as its wires leave pins for."""
        chance = Random(f"components {self.seeds[PARTS.index('size')]}")
        left = min(map(len, self._pins)) - self._matrix.size if self.sound else 1000
        many = self.most.holes == LIMITS.holes
        found = components(chance, most=left, many=many)
        has_layers = bool(layer_names(self.chance("layers")))
        found = [one for one in found if one[0] == "knob" or one[1] in LOCKS or has_layers]
        _, rows = plate(self.chance("plate"), self._rows, self.most)
        keys = {key.casefold() for row in rows for key in row}
        return [one for one in found if one[1].casefold() not in keys]

    @property
    def _matrix(self) -> Matrix:
        most = min(map(len, self._pins)) if self.sound else 2 * LIMITS.lines_per_axis
        return matrix(self.chance("size"), self._keys, most)

    @property
    def _boards(self) -> list[str]:
        chance = self.chance("size")
        return chance.sample(BOARDS, chance.choice((1, 1, 2, 3)))

    @property
    def _computer(self) -> str:
        """What the computer is set to; empty for nothing. No revision changes it."""
        chance = Random(f"computer {self.seeds[PARTS.index('size')]}")
        return chance.choice(("", "", chance.choice(COMPUTERS)))

    @property
    def _pins(self) -> list[list[str]]:
        return [[pin.name for pin in builtin_profile(b).free_pins] for b in self._boards]

    def _keyboard(self) -> list[str]:
        chance, keys = self.chance("settings"), self._keys
        said = [f"controller {', '.join(self._boards)}"]
        computer = [f"computer {self._computer}"] if self._computer else []
        if not self.sound and chance.random() < 0.6:
            own = [
                f'"my {board}.json"' if chance.random() < 0.5 else board for board in self._boards
            ]
            said = [f"controller {', '.join(own)}"][: chance.randrange(3)]
        debounce = f"debounce {chance.choice((1, 5, 8.5, 200))} ms"
        press = f", press {chance.choice((0, 2, 50))} ms"
        said += [debounce + chance.choice(("", press))] * chance.randrange(2)
        said += ['maker "Ä \\"quoted\\" \\\\ name"'] * chance.randrange(2)
        said += [f"usb {chance.choice(('1209:0001', 'ffff:aBc0'))}"] * chance.randrange(2)
        said += [f"once lasts {chance.choice((100, 900.5, 60000))} ms"] * chance.randrange(2)
        said += [f"hold after {chance.choice((50, 180, 2000))} ms"] * chance.randrange(2)
        said += [f"roll {chance.choice((0, 120, 500))} ms"] * chance.randrange(2)
        said += [f"pace {chance.choice((1, 4.5, 100))} ms"] * chance.randrange(2)
        said += [f"together within {chance.choice((10, 30, 200))} ms"] * chance.randrange(2)
        for word, most in (("pointer", POINTER_STEPS[1]), ("wheel", WHEEL_STEPS[1])):
            grows = f"{chance.choice((1, 40))} to {chance.choice((40, most))} steps a second within"
            steady = f"{chance.choice((1, 300, most))} steps a second"
            forms = (f"{grows} {chance.choice((1, 700, WITHIN_MS[1]))} ms", steady)
            said += [f"{word} {chance.choice(forms)}"] * chance.randrange(2)
        said += ["remember base"] * chance.randrange(2)
        if len(keys) > 1 and chance.random() < 0.4:
            said.append(f"boot-loader hold {' '.join(chance.sample(keys, 2))}")
        said += computer
        said += ["boot-loader double reset"] * chance.randrange(2)
        if chance.random() < 0.4:
            said.append(f"allow keys-overlap {keys[0]} to {keys[-1]}")
        said += ["allow unreachable-layer"] * chance.randrange(2)
        chance.shuffle(said)
        name = chance.choice(("Pad", "日本 é", "x" * LIMITS.string_units))
        if not self.sound and chance.random() < 0.2:
            bare = [f'keyboard "{name}"', *computer]
            return bare if computer else bare * chance.randrange(2)
        return [f'keyboard "{name}"', *said]

    def _wired(self) -> list[list[str]]:
        order = [key for row in self._plate[1] for key in row]
        pins = [list(board) for board in self._pins]
        made = self._matrix
        chance = self.chance("wiring")
        for board in pins:
            chance.shuffle(board)
        if not self.sound and chance.random() < 0.2:
            return [["wiring"]] * chance.randrange(2)
        lines = wiring(chance, made, order, pins, sound=self.sound)
        left = [board[made.size :] for board in pins]
        of_parts = Random(f"components {chance.random()}")
        layers = layer_names(self.chance("layers"))
        lines += wired(of_parts, self._components, left, layers, sound=self.sound)
        return [["wiring", *lines]]

    def _keymap(self) -> list[list[str]]:
        layers = layer_names(self.chance("layers"))
        texts = bool(self._computer)
        named = actions(self.chance("actions"), layers, texts=texts)
        blocks = [["actions", *(f"{name} = {said}" for name, said in named.items())]]
        cells = self.chance("cells")
        knobs = [name for kind, name in self._components if kind == "knob"] if self.sound else []
        rows = self._plate[1]
        made = keymap(cells, rows, layers, named, sound=self.sound, texts=texts, knobs=knobs)
        has_block = named or cells.random() < 0.3
        return [*(blocks if has_block else []), *made]


def draft(seed: int, *, sound: bool = False, most_keys: int = 64) -> Draft:
    """The draft of a seed. One that may have all keys may have all holes and areas, too."""
    places = LIMITS if most_keys == LIMITS.keys else FEW_PLACES
    most = changed(places, keys=most_keys)
    return Draft(tuple(seed * 31 + n for n in range(len(PARTS))), sound, most)
