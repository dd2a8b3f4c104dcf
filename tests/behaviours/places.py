"""Where a behaviour has to be at home, and which of those places lack it.

The places are looked for in the text of a checkout, so that a half-made behaviour can be planted in
a copy of one.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path


class Behaviour:
    """A behaviour by its module's name, in some checkout."""

    def __init__(self, root: Path, name: str) -> None:
        self.root = root
        self.name = name
        self.record = "".join(word.capitalize() for word in name.split("_"))

    def text(self, place: str) -> str:
        path = self.root / place
        return path.read_text(encoding="utf-8") if path.is_file() else ""

    @property
    def form(self) -> str:
        """The phrase as the table of phrases has it, or what nothing has."""
        found = re.search(r'form="([^"]+)"', self.text(f"matrixgen/source/phrases/{self.name}.py"))
        return found[1] if found else "\0"

    @property
    def kind(self) -> str:
        """The kind of action in C, or what nothing has."""
        found = re.search(r'KIND = "(\w+)"', self.text(f"matrixgen/emit/behaviours/{self.name}.py"))
        return found[1] if found else "\0"


def record(one: Behaviour) -> bool:
    text = one.text(f"matrixgen/model/actions/{one.name}.py")
    union = one.text("matrixgen/model/actions/__init__.py").partition("\nAction = ")[2]
    return f"class {one.record}(Behaviour)" in text and one.record in union.partition('"""')[0]


def phrase_in_words(one: Behaviour) -> bool:
    text = one.text(f"matrixgen/model/actions/{one.name}.py")
    return "def phrase(self)" in text


def phrase_that_is_read(one: Behaviour) -> bool:
    grammar = one.text("grammar/keys.lark").partition("_phrase     :")[2].partition("\n\n")[0]
    rule = re.search(r'rule="(\w+)"', one.text(f"matrixgen/source/phrases/{one.name}.py"))
    listed = one.text("matrixgen/source/phrases/__init__.py").partition("PHRASES: ")[2]
    return bool(rule and rule[1] in grammar.split()) and one.name in re.findall(r"\w+", listed)


def taught_mistakes(one: Behaviour) -> bool:
    """Those of a press are for every word that is read where it is."""
    text = one.text(f"matrixgen/source/phrases/{one.name}.py")
    is_word = 'rule="CELL"' in text and one.name != "press"
    rule = re.search(r'rule="(\w+)"', text)
    lessons = one.text("grammar/lessons/phrases.toml")
    return is_word or bool(rule and re.search(rf"^\[\[{rule[1]}\]\]$", lessons, re.M))


def reference_row(one: Behaviour) -> bool:
    return (
        re.search(rf"^\|.*`{re.escape(one.form)}`.*\|$", one.text("grammar/README.md"), re.M)
        is not None
    )


def table_row(one: Behaviour) -> bool:
    kinds = one.text("templates/firmware/tables/tables.h").partition("enum action_kind {")[2]
    places = one.text("matrixgen/emit/behaviours/__init__.py")
    return f"case {one.record}()" in places and one.kind in kinds.partition("}")[0]


def c_file(one: Behaviour) -> bool:
    text = one.text("templates/firmware/engine/actions.c")
    header = one.text(f"templates/firmware/engine/behaviours/{one.name}.h")
    return f"{one.name}_down(" in header and f'"behaviours/{one.name}.h"' in text


def c_cases(one: Behaviour) -> bool:
    text = one.text("templates/firmware/engine/actions.c")
    switches = re.findall(r"switch \(.*?\n    }\n", text, re.S)
    return len(switches) >= 2 and all(f"case {one.kind}:" in switch for switch in switches)


def model_case(one: Behaviour) -> bool:
    text = one.text(f"matrixgen/behaviour/{one.name}.py")
    cases = one.text("matrixgen/behaviour/behaviours.py").count(f"case {one.record}():")
    return "def press(" in text and "def hold(" in text and cases == 2


def sound_file(one: Behaviour) -> bool:
    words = re.sub(r"\b[A-Z]+(?:\\-[A-Z]+)*\b", r"[\\w-]+", re.escape(one.form).replace(r"\ ", " "))
    files = (one.root / "tests/language/actions").glob("fine-*.keys")
    return any(re.search(rf"= {words}\b", path.read_text("utf-8")) for path in files)


def key_on_a_pad(one: Behaviour) -> bool:
    return f"{one.record}(" in one.text("tests/firmware/pads.py")


PLACES: dict[str, Callable[[Behaviour], bool]] = {
    "record": record,
    "phrase in words": phrase_in_words,
    "phrase that is read": phrase_that_is_read,
    "taught mistakes": taught_mistakes,
    "reference row": reference_row,
    "table row": table_row,
    "C file": c_file,
    "C cases": c_cases,
    "model case": model_case,
    "sound file": sound_file,
    "key on a test pad": key_on_a_pad,
}


def missing_places(root: Path, name: str) -> list[str]:
    """Return the places of a checkout in which a behaviour is not at home."""
    one = Behaviour(root, name)
    return [place for place, has in PLACES.items() if not has(one)]
