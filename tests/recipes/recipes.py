"""The guide's recipes as files: what is new, what is changed, and the tests that miss a step.

Each is planted in a copy of the checkout, whole or with one step left out.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass, field
from pathlib import Path

from tests.texts import GOOD

ROOT = Path(__file__).parents[2]
COPIED = ("matrixgen", "boards", "README.md")
"""What a recipe touches; all else in the copy is a link to the checkout's own."""

RULE_PAGE = '''"""# keyboard called Honk

## What it does
Finds a keyboard with the name Honk.

## Why it matters
There is one already.

## Example
```keys
keyboard "Honk"
  controller atmega32u4
```

## Do instead
```keys
keyboard "Beep"
  controller atmega32u4
```

## Reference
None.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("keyboard-called-honk", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding where the name is Honk."""
    name = context.keyboard.identity.name
    if name and name.text == "Honk":
        yield PROBLEM.at(name.span, "there is a keyboard called Honk", help="call it Beep")
'''

COMMAND = '''"""`matrixgen honk`: honks."""

from __future__ import annotations

import argparse

from matrixgen.cli.complain import FINE


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("--loudly", action="store_true", help="honk loudly")


def run(arguments: argparse.Namespace) -> int:
    """Honk and return the exit status."""
    print("HONK" if arguments.loudly else "honk")
    return FINE
'''

SOUND = GOOD.replace("Pad", "{name}")


@dataclass(frozen=True)
class Recipe:
    """New files by path, changes by path as what is there and what is there then, and guards.

    `guards` are the arguments of pytest for the tests that fail where a step is left out.
    """

    new: dict[str, str]
    changed: dict[str, tuple[str, str]]
    guards: tuple[str, ...] = field(default=())

    @property
    def steps(self) -> tuple[str, ...]:
        """Each file that it touches."""
        return (*self.new, *self.changed)


def _profile() -> str:
    text = (ROOT / "boards" / "rp2040-40pin.json").read_text("utf-8")
    own = text.replace('"name": "rp2040-40pin"', '"name": "rp2040-honk"', 1)
    assert own != text
    return own.replace('"proof": "emulated"', '"proof": "builds"')


def _row_of(name: str) -> str:
    rows = (ROOT / "README.md").read_text("utf-8").splitlines()
    return next(row for row in rows if row.startswith(f"| `{name}` "))


_BEFORE = _row_of("rp2040-40pin")
_HONK = _row_of("rp2040-40pin").replace("rp2040-40pin", "rp2040-honk").replace("emulated", "builds")

RECIPES = {
    "rule": Recipe(
        new={
            "matrixgen/rules/settings/keyboard_called_honk.py": RULE_PAGE,
            "tests/rules/settings/keyboard-called-honk/broken.keys": SOUND.replace(
                '"{name}"', '"Honk"  # warning: keyboard-called-honk at "Honk"'
            ),
            "tests/rules/settings/keyboard-called-honk/fine.keys": SOUND.format(name="Beep"),
        },
        changed={
            "matrixgen/rules/registry.py": (
                "    impractical_settle,\n",
                "    impractical_settle,\n    keyboard_called_honk,\n",
            ),
        },
        guards=(
            *("tests/rules/test_marked_files.py", "tests/rules/test_pages.py"),
            *("-k", "honk or registry_holds"),
        ),
    ),
    "command": Recipe(
        new={"matrixgen/cli/honk.py": COMMAND},
        changed={
            "matrixgen/cli/commands.py": (
                "COMMANDS = {\n",
                'COMMANDS = {\n    "honk": "honk",\n',
            ),
            "matrixgen/cli/README.md": (
                "| `matrixgen new NAME`",
                "| `matrixgen honk` | honks; `--loudly` |\n| `matrixgen new NAME`",
            ),
        },
        guards=("tests/packaging/test_readme.py", "-k", "command_has_its_row or honk"),
    ),
    "profile": Recipe(
        new={"boards/rp2040-honk.json": _profile()},
        changed={"README.md": (f"{_BEFORE}\n", f"{_BEFORE}\n{_HONK}\n")},
        guards=("tests/packaging/test_readme.py", "tests/boards", "-k", "board_table or honk"),
    ),
}


def copy_of_checkout(folder: Path) -> Path:
    """Return a checkout whose files a recipe may touch; the others are links."""
    no_cache = shutil.ignore_patterns("__pycache__", "emulators")
    for path in ROOT.iterdir():
        if path.name in (*COPIED, "tests") and path.is_dir():
            shutil.copytree(path, folder / path.name, ignore=no_cache)
        elif path.name in COPIED:
            shutil.copy(path, folder)
        elif path.name not in (".git", ".venv"):
            (folder / path.name).symlink_to(path)
    (folder / "tests" / "emulators").symlink_to(ROOT / "tests" / "emulators")
    return folder


def plant(recipe: Recipe, root: Path, *, without: str | None = None) -> None:
    """Do each step of a recipe but one."""
    for name, text in recipe.new.items():
        if name != without:
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(text, encoding="utf-8")
    for name, (there, instead) in recipe.changed.items():
        text = (root / name).read_text(encoding="utf-8")
        assert there in text, f"{name} has no {there!r}"
        if name != without:
            (root / name).write_text(text.replace(there, instead), encoding="utf-8")


def undo(recipe: Recipe, root: Path) -> None:
    """Take out each step of a recipe."""
    for name in recipe.new:
        (root / name).unlink(missing_ok=True)
    for name in recipe.changed:
        (root / name).write_bytes((ROOT / name).read_bytes())
