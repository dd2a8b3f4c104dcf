"""A behaviour that does not exist, planted in a copy of the checkout: whole, or half made."""

from __future__ import annotations

import shutil
from pathlib import Path

ROOT = Path(__file__).parents[2]
COPIED = (
    *(
        "grammar",
        "matrixgen/model/actions",
        "matrixgen/source/phrases",
        "matrixgen/emit",
        "matrixgen/behaviour",
    ),
    *("templates/firmware/engine", "templates/firmware/tables", "tests/firmware"),
    "tests/language/actions",
)
NAME = "honk_horn"

FILES = {
    "record": (
        "matrixgen/model/actions/honk_horn.py",
        "class HonkHorn(Behaviour):\n{phrase in words}",
    ),
    "phrase that is read": (
        "matrixgen/source/phrases/honk_horn.py",
        'PHRASE = Phrase(rule="honk", form="honk horn TIMES")',
    ),
    "C file": (
        "templates/firmware/engine/behaviours/honk_horn.h",
        "#if HAS_HONK_HORN\nstatic inline void honk_horn_down(uint8_t times)\n{\n}\n#endif\n",
    ),
    "sound file": ("tests/language/actions/fine-honk-horn.keys", "actions\n  beep = honk horn 3\n"),
}
"""New files by the place that they belong to."""

WITHIN = {
    "phrase in words": '    @property\n    def phrase(self): return "honk horn"\n',
}
"""Parts of the new files that are places of their own."""

CHANGES = {
    "record": (
        "matrixgen/model/actions/__init__.py",
        "| StartBootLoader\n",
        "| StartBootLoader | HonkHorn\n",
    ),
    "phrase that is read": (
        "grammar/keys.lark",
        "            | boot_loader\n",
        "            | boot_loader\n            | honk\n",
    ),
    "phrase that is read, 2": (
        "matrixgen/source/phrases/__init__.py",
        "        start_boot_loader,\n    )",
        "        start_boot_loader,\n        honk_horn,\n    )",
    ),
    "taught mistakes": (
        "grammar/lessons/phrases.toml",
        "\n[[nothing]]\n",
        '\n[[honk]]\nbroken = ["honk"]\n\n[[nothing]]\n',
    ),
    "reference row": (
        "grammar/README.md",
        "| `nothing` |",
        "| `honk horn TIMES` | honks |\n| `nothing` |",
    ),
    "table row": (
        "matrixgen/emit/action_rows.py",
        "        case _:\n",
        "        case HonkHorn():\n            return Row(kind, action.times)\n        case _:\n",
    ),
    "C kind": (
        "templates/firmware/tables/tables.h",
        "enum action_kind {\n",
        "enum action_kind {\n#if HAS_HONK_HORN\n    ACTION_HONK_HORN = 99,\n#endif\n",
    ),
    "C file": (
        "templates/firmware/engine/actions.c",
        '#include "layers.h"\n',
        '#include "behaviours/honk_horn.h"\n#include "layers.h"\n',
    ),
    "C cases": (
        "templates/firmware/engine/actions.c",
        "#if HAS_NOTHING\n",
        "#if HAS_HONK_HORN\n    case ACTION_HONK_HORN:\n        break;\n#endif\n#if HAS_NOTHING\n",
    ),
    "model case": (
        "matrixgen/behaviour/behaviours.py",
        " | Nothing()",
        " | Nothing() | HonkHorn()",
    ),
    "key on a test pad": (
        "tests/firmware/pads.py",
        '"G": Nothing(),',
        '"G": HonkHorn(3),',
    ),
}
"""Changes to files that are there, by the place that they belong to."""


def copy_of_checkout(folder: Path) -> Path:
    for place in COPIED:
        shutil.copytree(ROOT / place, folder / place, ignore=shutil.ignore_patterns("__pycache__"))
    return folder


def plant(root: Path, *, without: str | None = None) -> None:
    """Plant the behaviour everywhere, but for one place."""
    for place, (name, text) in FILES.items():
        for part, words in WITHIN.items():
            text = text.replace(f"{{{part}}}", "pass" if part == without else words)
        if place != without:
            (root / name).write_text(text, encoding="utf-8")
    for label, (name, there, instead) in CHANGES.items():
        if label.partition(",")[0] != without:
            path = root / name
            text = path.read_text(encoding="utf-8")
            assert there in text, f"{name} has no {there!r}"
            path.write_text(text.replace(there, instead), encoding="utf-8")
