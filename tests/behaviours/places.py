"""Where a behaviour has to be at home, and which of those places lack it.

The places are looked for in the text of a checkout, so that a half-made behaviour can be planted in
a copy of one.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

SOUND = "tests/language/actions"


class Behaviour:
    """A behaviour by its module's name, in some checkout."""

    def __init__(self, root: Path, name: str) -> None:
        self.root = root
        self.name = name
        self.record = "".join(word.capitalize() for word in name.split("_"))
        self.kind = f"ACTION_{name.upper()}"
        self.read: set[str] = set()

    def text(self, place: str) -> str:
        path = self.root / place
        self.read |= {place}
        return path.read_text(encoding="utf-8") if path.is_file() else ""

    @property
    def form(self) -> str:
        """The phrase as the table of phrases has it, or what nothing has."""
        found = re.search(r'form="([^"]+)"', self.text(f"matrixgen/source/phrases/{self.name}.py"))
        return found[1] if found else "\0"

    @property
    def feature(self) -> str:
        """What conditions in the C ask for."""
        return f"HAS_{self.name.upper()}"

    def is_case_of(self, match: str) -> bool:
        """Whether the behaviour is named in a case of a function's `match`."""
        cases = re.findall(r"^ +case (.*):$", match, re.M)
        return any(f"{self.record}()" in case.split(" | ") for case in cases)


def record(one: Behaviour) -> bool:
    text = one.text(f"matrixgen/model/actions/{one.name}.py")
    union = one.text("matrixgen/model/actions/__init__.py").partition("\nAction = ")[2]
    return f"class {one.record}(Behaviour)" in text and one.record in union.partition('"""')[0]


def phrase_in_words(one: Behaviour) -> bool:
    text = one.text(f"matrixgen/model/actions/{one.name}.py")
    return "def phrase(self)" in text or "def said(self, words" in text


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
    return one.is_case_of(one.text("matrixgen/emit/action_rows.py"))


def c_kind(one: Behaviour) -> bool:
    kinds = one.text("templates/firmware/tables/tables.h").partition("enum action_kind {")[2]
    return f"#if {one.feature}\n    {one.kind} = " in kinds.partition("}")[0]


def c_file(one: Behaviour) -> bool:
    text = one.text("templates/firmware/engine/actions.c")
    header = one.text(f"templates/firmware/engine/behaviours/{one.name}.h")
    is_asked_for = f"#if {one.feature}\n" in header and f'"behaviours/{one.name}.h"' in text
    return is_asked_for and (f"{one.name}_down(" in header)


def c_cases(one: Behaviour) -> bool:
    text = one.text("templates/firmware/engine/actions.c")
    switches = re.findall(r"switch \(.*?\n    }\n", text, re.S)
    case = f"#if {one.feature}\n    case {one.kind}:"
    return len(switches) >= 2 and all(case in switch for switch in switches)


def model_case(one: Behaviour) -> bool:
    _, *functions = one.text("matrixgen/behaviour/behaviours.py").split("\ndef ")
    return bool(functions) and all(map(one.is_case_of, functions))


def sound_file(one: Behaviour) -> bool:
    words = re.sub(r"\b[A-Z]+(?:\\-[A-Z]+)*\b", r"[\\w-]+", re.escape(one.form).replace(r"\ ", " "))
    own = f"fine-{one.name.replace('_', '-')}.keys"
    files = sorted(path.name for path in (one.root / SOUND).glob("fine-*.keys"))
    found = (re.search(rf"= {words}\b", one.text(f"{SOUND}/{name}")) for name in (own, *files))
    return any(found)


def key_on_a_pad(one: Behaviour) -> bool:
    return f"{one.record}(" in one.text("tests/firmware/pads.py")


PLACES: dict[str, Callable[[Behaviour], bool]] = {
    "record": record,
    "phrase in words": phrase_in_words,
    "phrase that is read": phrase_that_is_read,
    "taught mistakes": taught_mistakes,
    "reference row": reference_row,
    "table row": table_row,
    "C kind": c_kind,
    "C file": c_file,
    "C cases": c_cases,
    "model case": model_case,
    "sound file": sound_file,
    "key on a test pad": key_on_a_pad,
}


def files_of(root: Path, name: str) -> set[str]:
    """Return the files of a checkout that the places of a behaviour are in."""
    one = Behaviour(root, name)
    for has in PLACES.values():
        has(one)
    return one.read


def missing_places(root: Path, name: str) -> list[str]:
    """Return the places of a checkout in which a behaviour is not at home."""
    one = Behaviour(root, name)
    return [place for place, has in PLACES.items() if not has(one)]
