"""What the last word of an unfinished command line may become, by the parsers of the commands."""

from __future__ import annotations

import argparse
import importlib
import os
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from matrixgen.cli.commands import COMMANDS

if TYPE_CHECKING:
    from matrixgen.model import Design

FILES = ("FILE", "IMAGE", "DRAWING", "OLD", "NEW", "BASE", "OURS", "THEIRS", "OUT", "PATH", "STEPS")
"""What arguments are called that are files; such a word may have an ending, as `OUT.html` has."""

KEYS = ".keys"

Names = Callable[[str | None], Iterable[str]]
"""Names that an argument may be, by the file that the command line has, if it has one."""


def candidates(words: Sequence[str]) -> list[str]:
    """Return what the last word may become, in order: `.keys` files and folders first."""
    *before, last = words
    if not before:
        return _that_begin((*COMMANDS, "--help", "--version"), last)
    if before[0] not in COMMANDS:
        return []
    parser = _parser_of(before[0])
    if last.startswith("-") and "--" not in before:
        return _that_begin(_options(parser), last)
    action = _action_for(parser, before[1:])
    return _values(action, last, _file_in(before[1:])) if action else []


def _parser_of(name: str) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(allow_abbrev=False)
    importlib.import_module(f"matrixgen.cli.{name.replace('-', '_')}").add_arguments(parser)
    return parser


def _that_begin(names: Iterable[str], start: str) -> list[str]:
    return [name for name in names if name.startswith(start)]


def _options(parser: argparse.ArgumentParser) -> list[str]:
    shown = (one for one in parser._actions if one.help != argparse.SUPPRESS)
    return sorted(option for one in shown for option in one.option_strings)


def _action_for(parser: argparse.ArgumentParser, before: Sequence[str]) -> argparse.Action | None:
    """Return the option whose value comes next, or else the argument in its place."""
    by_option = {option: one for one in parser._actions for option in one.option_strings}
    plain = 0
    waits: argparse.Action | None = None
    for word in before:
        if waits:
            waits = None
        elif word in by_option:
            waits = by_option[word] if by_option[word].nargs != 0 else None
        else:
            plain += 1
    if waits:
        return waits
    in_place = [one for one in parser._actions if not one.option_strings]
    if plain < len(in_place):
        return in_place[plain]
    is_many = in_place and in_place[-1].nargs in ("+", "*")
    return in_place[-1] if is_many else None


def _values(action: argparse.Action, start: str, file: str | None) -> list[str]:
    if action.choices:
        return _that_begin(map(str, action.choices), start)
    called = str(action.metavar or "")
    if names := NAMES.get(called) or NAMES.get(action.dest):
        return _that_begin(names(file), start)
    if any(part.split(".")[0] in FILES for part in called.split("|")):
        return _files(start)
    return []


def _files(start: str) -> list[str]:
    """Return the `.keys` files and folders that begin so; where there are none, any files."""
    folder, begin = os.path.split(start)
    try:
        found = sorted(Path(folder or ".").iterdir())
    except OSError:
        return []
    found = [one for one in found if one.name.startswith(begin)]
    found = [one for one in found if begin or not one.name.startswith(".")]
    folders = [one for one in found if one.is_dir()]
    keys = [one for one in found if one.suffix == KEYS and one not in folders]
    above = start.removesuffix(begin)
    return [
        f"{above}{one.name}{'/' * one.is_dir()}" for one in ([*keys, *folders] if keys else found)
    ]


def _file_in(words: Sequence[str]) -> str | None:
    return next((word for word in words if word.endswith(KEYS) and Path(word).is_file()), None)


def _design_in(file: str | None) -> Design | None:
    from matrixgen.source import read_design

    return read_design(file)[0] if file else None


def _layers(file: str | None) -> list[str]:
    design = _design_in(file)
    return [layer.name.text for layer in design.keyboard.layers] if design else []


def _controllers(file: str | None) -> list[str]:
    """Return those that the file names, or else all that are built in."""
    from matrixgen.boards import builtin_names

    design = _design_in(file)
    own = [word.text for word in design.controllers] if design else []
    return own or list(builtin_names())


def _findings(_: str | None) -> list[str]:
    from matrixgen.jobs.catalogue import catalogue

    return list(catalogue())


def _findings_in(file: str | None) -> list[str]:
    """Return those of the file, or else all."""
    from matrixgen.jobs.examine import examine

    found = [one.slug for one in examine(file).findings] if file else []
    return list(dict.fromkeys(found)) or _findings(file)


def _pictures(file: str | None) -> list[str]:
    from matrixgen.jobs.sheet import picture_names

    design = _design_in(file)
    return picture_names(design) if design else []


def _revisions(_: str | None) -> list[str]:
    from matrixgen.git.repository import revisions

    return list(revisions())


def _ports(_: str | None) -> list[str]:
    from matrixgen.ports.listing import serial_ports

    return [one.path for one in serial_ports()]


def _topics(_: str | None) -> list[str]:
    from matrixgen.cli.help import topics

    return [*topics(), *COMMANDS]


def _layouts(_: str | None) -> list[str]:
    from matrixgen.layouts import layout_names

    return list(layout_names())


NAMES: dict[str, Names] = {
    "layer": _layers,
    "controller": _controllers,
    "slug": _findings,
    "cure": _findings_in,
    "drawing": _pictures,
    "REV": _revisions,
    "PORT": _ports,
    "topic": _topics,
    "layout": _layouts,
}
"""Arguments that are names, by what they are called in the help, or by their attribute."""
