"""Having git use matrixgen in one repository: its drivers, and the files that they are for.

All of it is local: `git config --local`, and the attributes in `.git/info/attributes`. Nothing has
to be committed, a clone without matrixgen knows nothing of it, and taking it out leaves no trace.

Nothing is converted to text for git (`textconv`), which was tried: `git log -p` ran a Python for
each revision's two sides, `git blame` showed the facts below the file's own lines, and so did the
differences of a file that is being merged. A .keys file is made to be read line by line; whoever
wants it in words asks `git log -p --ext-diff` or `matrixgen history`.
"""

from __future__ import annotations

import shlex
import sys
from pathlib import Path

from matrixgen.failure import Failure
from matrixgen.git.program import run_git
from matrixgen.model.reason import reason_of
from matrixgen.record import Record

ATTRIBUTES = "*.keys diff=matrixgen merge=matrixgen"
FORMER = ("diff.matrixgen.textconv",)
"""Settings that earlier versions made."""

OWN = "-m matrixgen "
"""What each of our own commands has in it."""


def drivers(python: str = sys.executable) -> dict[str, str]:
    """Return the settings by name.

    Where this Python or matrixgen is gone, a merge is git's own and a text is shown as it is: git
    would take a driver that cannot be run for a conflict that ours alone is left of.
    """
    program = f"{shlex.quote(python)} -P {OWN}"
    there = f"if {shlex.quote(python)} -P -c 'import matrixgen' 2>/dev/null; then {program}"
    return {
        "merge.matrixgen.name": "keys, wires and layers of .keys files, by what they are",
        "merge.matrixgen.driver": (
            f"{there}merge %O %A %B --path=%P; else git merge-file %A %O %B; fi"
        ),
        "diff.matrixgen.command": (
            f'f() {{ {there}git-diff -- "$@"; else git diff --no-index --no-ext-diff -- "$2" "$5"; '
            "true; fi; }; f"
        ),
        "diff.matrixgen.xfuncname": "^([a-z].*)$",
    }


class Setup(Record):
    """What is to be changed: settings to be made or unset, and the text of the attributes.

    `attributes` is None where that file is to go, `path`.
    """

    settings: dict[str, str | None]
    path: Path
    before: str | None
    after: str | None

    @property
    def lines(self) -> tuple[str, ...]:
        """Each change in a line."""
        said = [
            f"unset {name}" if value is None else f"set   {name} = {value}"
            for name, value in self.settings.items()
        ]
        if self.before != self.after:
            verb = "remove" if ATTRIBUTES in (self.before or "").splitlines() else "add  "
            said.append(f"{verb} `{ATTRIBUTES}` in {self.path}")
        return tuple(said)


def planned(*, undo: bool) -> Setup:
    """Return what is to be changed in the repository of the current folder."""
    path = _attributes_path()
    try:
        before = path.read_bytes().decode("utf-8", "surrogateescape") if path.exists() else None
    except OSError as error:
        raise Failure(f"`{path}` cannot be read: {reason_of(error)}") from error
    settings: dict[str, str | None] = {}
    for name, value in (dict.fromkeys(FORMER) | drivers()).items():
        there = _setting(name)
        if value is None and OWN not in (there or ""):
            continue  # somebody else's own
        is_ours = there is None or OWN in there or there == value
        if not is_ours and not undo:
            raise Failure(
                f"this repository has another `{name}` already: `{there}`",
                f"if it may go: `git config --local --unset {name}`",
            )
        if is_ours and there != (None if undo else value):
            settings[name] = None if undo else value
    return Setup(settings, path, before, _without(before) if undo else _with(before))


def _attributes_path() -> Path:
    """Return where the attributes are: for all work trees of a repository in one place."""
    bare = run_git("rev-parse", "--is-bare-repository", "--git-path", "info/attributes", most=0)
    if bare.lines[0] == "true":
        raise Failure("this is a bare repository: it has no files to merge or to compare")
    return Path(bare.lines[1])


def _setting(name: str) -> str | None:
    ran = run_git("config", "--local", "--null", "--get", name, most=1)
    return None if ran.status else ran.out.decode("utf-8", "replace").removesuffix("\0")


def _with(text: str | None) -> str:
    """Return the attributes with our line; the last line goes on without a line end if it did."""
    if text is None or not text:
        return f"{ATTRIBUTES}\n"
    if ATTRIBUTES in text.splitlines():
        return text
    return f"{text}{ATTRIBUTES}\n" if text.endswith("\n") else f"{text}\n{ATTRIBUTES}"


def _without(text: str | None) -> str | None:
    """Return the attributes without our line, and None where nothing else is there."""
    if text is None or ATTRIBUTES not in text.splitlines():
        return text
    if text.endswith(f"\n{ATTRIBUTES}"):
        return text.removesuffix(f"\n{ATTRIBUTES}")
    left = "".join(line for line in text.splitlines(True) if line.rstrip("\r\n") != ATTRIBUTES)
    return left or None


def apply_settings(settings: dict[str, str | None]) -> None:
    """Make or unset settings, all of them or none."""
    done: dict[str, str | None] = {}
    for name, value in settings.items():
        words = ("--unset", name) if value is None else (name, value)
        try:
            there = _setting(name)
            run_git("config", "--local", *words, most=0)
        except Failure:
            apply_settings(done)
            raise
        done[name] = there
