"""Names and numbers as a file may have them, up to the limits of the language's reference."""

from __future__ import annotations

from collections.abc import Iterable
from random import Random

from matrixgen.layouts import layout_named, layout_names
from matrixgen.source.limits import LIMITS
from matrixgen.source.phrases import FIRST_WORDS
from matrixgen.usages import usage_of, usages, word_of, words_of
from matrixgen.usages.media import media_words
from matrixgen.usages.numbered import PAGES
from matrixgen.usages.pointer import pointer_words

SIGNS = list("-[]\\;'`./!$%&()*<>?@^_{|}")
QUOTED = [f'"{sign}"' for sign in "+=,:~#"] + ['"\\""']
LAYOUTS = {
    f"{name}{on}": layout
    for name in layout_names()
    for system, on in ((None, ""), ("linux", " on linux"), ("windows", " on Windows"))
    if (layout := layout_named(name, system)) and all(map(layout.way, (*SIGNS, *'azAZ09+=,:~#"')))
}
COMPUTERS = [*LAYOUTS]
"""Layouts that have all of ASCII, so that every name and cell means something."""

SOMEWHERE_IN_TWO = {
    sign for sign in SIGNS for layout in LAYOUTS.values() if len(layout.way(sign) or ()) > 1
}
"""Signs that two strokes type in some layout: a key of that name has to be told what to do."""

TEXTS = ["ok", "Ab, c!", 'say \\"x\\" = #', "0123456789 " * 8, "(a) {b} [c] \\\\"]
USAGES = [word for usage in usages() for word in words_of(usage)]
MEDIA = list(media_words())
POINTER = list(pointer_words())
MODIFIERS = ["Ctrl", "Shift", "Alt", "GUI", "AltGr", "RightShift", "LeftCtrl", "RightGUI"]
SCRIPTS = ["Käse", "клавиша", "上", "é", "Ω-2", "ключ_1", "1x", "9", "x" * LIMITS.name_letters, "µ"]
COLOURS = ["black", "red", "yellow", "grey", "turquoise", "white"]
NOT_KEYS = {"to", "and", "in", "down"}
PHRASES = {*FIRST_WORDS, "layer", "and"}


def number(value: float) -> str:
    """A number, in one of the ways in which it can be written."""
    return f"{value:.4f}".rstrip("0").rstrip(".") if value % 1 else f"{value:.0f}"


def key_names(chance: Random, count: int) -> list[str]:
    """As many names as there are keys: usages, signs, tags, other scripts, words of no usage."""
    found: dict[str, str] = {}
    while len(found) < count:
        kind = chance.random()
        if kind < 0.5:
            name = chance.choice(USAGES)
        elif kind < 0.6:
            name = chance.choice((*SIGNS, *QUOTED))
        elif kind < 0.65:
            name = chance.choice(SCRIPTS)
        elif kind < 0.7:
            name = chance.choice((*MEDIA, *POINTER))
        elif kind < 0.85:
            word = chance.choice((*USAGES[:40], *SIGNS, *QUOTED))
            name = f"{word}.{chance.choice(('2', 'left', 'é'))}"
        else:
            name = f"K{chance.randrange(3000)}"
        if name.casefold() not in NOT_KEYS and len(name) <= LIMITS.name_letters:
            found.setdefault(name.casefold(), name)
    return list(found.values())


def names(chance: Random, count: int, of: str) -> list[str]:
    """Names of wires, layers, actions or clusters, some from other scripts."""
    taken: dict[str, str] = {}
    while len(taken) < count:
        name = chance.choice((f"{of}{len(taken)}", f"{of}-{chance.randrange(99)}", f"{of}_é"))
        if chance.random() < 0.1:
            name = chance.choice(SCRIPTS)
        if name.casefold() not in PHRASES | {"base"} and usage_of(name) is None:
            taken.setdefault(name.casefold(), name)
    return list(taken.values())


def usage_number(chance: Random, pages: Iterable[int] = tuple(PAGES)) -> str:
    """A usage by its number, up to the limits of its page; one with a word only gets a warning."""
    number, page = chance.choice(sorted((one, PAGES[one]) for one in pages))
    usage = chance.choice((page.first, page.last, chance.randint(page.first, page.last)))
    form = chance.choice(("0x{:02X} 0x{:03X}", "0x{:x} 0x{:x}", "0x{:04X} 0x{:04x}"))
    return f"usage {form.format(number, usage)}"


def press(chance: Random, *, with_key: bool = False) -> str:
    """A key, with or without modifiers, or modifiers alone unless it is to be `with_key`."""
    modifiers = chance.sample(MODIFIERS[:4], chance.choice((0, 0, 0, 1, 2, 4)))
    key = word_of(chance.choice([usage for usage in usages() if usage < 0xE0]))
    has_key = with_key or chance.random() < 0.9 or not modifiers
    return "+".join([*modifiers, key] if has_key else modifiers)
