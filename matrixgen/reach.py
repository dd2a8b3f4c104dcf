"""Which files a stranger's .keys file may lead to: those of its own repository, and no others.

A file from somebody one does not know is checked in a clone of that person's repository. A path in
it, or a link that was committed for it, must not bring the files of whoever runs the check into a
log. All is decided after links are resolved.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator
from pathlib import Path

from matrixgen.named_files import reading
from matrixgen.reading import Refused, read_any, read_regular

GIT = ".git"

MOST_SETTING_BYTES = 64_000

_STREAM = re.compile(r"/dev/(stdin|fd/\d+)|/proc/(self|\d+)/fd/\d+")
"""What a shell names a file that is already open: its links lead to no place in particular."""


def read_named(path: Path, folder: Path, most: int) -> bytes:
    """Return what is in a file that a .keys file of this folder names; raises `OSError`."""
    return reading(path, lambda: read_regular(within_reach(path, folder), most))


def read_argument(path: Path, most: int) -> bytes:
    """Return what a file of the command line gives, be it a pipe; raises `OSError`."""
    return read_any(argument_within_reach(path), most)


def read_shown(path: Path, most: int) -> bytes:
    """Return what is in a regular file of which lines are to be shown; raises `OSError`."""
    return read_regular(argument_within_reach(path), most)


def folder_of(path: str) -> Path:
    """Return the folder from which a .keys file of the command line names others.

    For what a shell hands over, as for standard input, that is the current one.
    """
    return Path() if _STREAM.fullmatch(path) else Path(path).parent


def within_reach(path: Path, folder: Path) -> Path:
    """Return where the path leads that a .keys file of this folder names.

    Raises `Refused` where that is neither below the repository of the folder (below the folder
    itself where there is no repository) nor below a folder that the user has named.
    """
    top = _repository_of(folder)
    home = f"the repository `{top}`" if top else f"the folder `{_real(folder)}`"
    return _below(path, top or _real(folder), f"it is outside {home}")


def argument_within_reach(path: Path) -> Path:
    """Return where a path of the command line leads: anywhere, but out of a repository by no link.

    Raises `Refused` where it does.
    """
    if _STREAM.fullmatch(str(path)):
        return path
    lexical = _absolute(path)
    top = _repository_of(lexical.parent)
    if GIT in lexical.parts:
        return path  # git itself runs programs on files there
    home = f"the repository `{top}`" if top else f"the folder `{_real(lexical.parent)}`"
    _below(path, top or _real(lexical.parent), f"it leads out of {home}")
    return path


def setting() -> Path:
    """Return the file in which a user names folders that profiles may lie in, one a line.

    It is a file and no variable of the environment: git, its hooks and editors are often started
    where no shell has set one.
    """
    if sys.platform == "win32":
        base = os.environ.get("APPDATA") or "~/AppData/Roaming"
    elif sys.platform == "darwin":
        base = "~/Library/Application Support"
    else:
        base = os.environ.get("XDG_CONFIG_HOME") or "~/.config"
    expanded = os.path.expanduser(base)  # noqa: PTH111 - never raises, unlike Path's
    return Path(expanded) / "matrixgen" / "folders"


def _below(path: Path, home: Path, otherwise: str) -> Path:
    """Return where a path leads if that is below `home`, or below a folder of the user's."""
    leads_to = _real(path)
    if leads_to.is_relative_to(home):
        if _is_gits_own(leads_to, home):
            raise Refused("it belongs to git", "keep the file outside the folder `.git`")
        return leads_to
    own, bad_lines = _own_folders()
    if any(leads_to.is_relative_to(one) for one in own):
        return leads_to
    bad = (f"line {number} of `{setting()}` is not an absolute path" for number in bad_lines)
    raise Refused(otherwise, f"keep it below that, or name its folder in `{setting()}`", *bad)


def _own_folders() -> tuple[list[Path], list[int]]:
    """Return the folders that the user has named, and the numbers of lines that name none."""
    try:
        text = read_regular(setting(), MOST_SETTING_BYTES).decode("utf-8", "surrogateescape")
    except OSError:
        return [], []
    named, bad = [], []
    for number, line in _lines(text):
        expanded = Path(os.path.expanduser(line))  # noqa: PTH111 - never raises, unlike Path's
        if expanded.is_absolute():
            named.append(_real(expanded))
        else:
            bad.append(number)
    return named, bad


def _lines(text: str) -> Iterator[tuple[int, str]]:
    """Yield each line that says something, with its number."""
    for number, line in enumerate(text.splitlines(), start=1):
        if line.strip() and not line.lstrip().startswith("#"):
            yield number, line.strip()


def _repository_folder(folder: Path) -> Path | None:
    """Return the nearest folder upwards that has a `.git`, as it is written."""
    written = _absolute(folder)
    for one in (written, *written.parents):
        try:
            if (one / GIT).exists():
                return one
        except OSError:
            continue
    return None


def _repository_of(folder: Path) -> Path | None:
    """Return the top of the repository that a folder is in, with links resolved."""
    found = _repository_folder(folder)
    return _real(found) if found else None


def _is_gits_own(path: Path, top: Path) -> bool:
    """Whether a path is in the folder that git keeps for itself: there may be tokens in it."""
    parts = path.relative_to(top).parts if path.is_relative_to(top) else ()
    return any(part.casefold() == GIT for part in parts)


def _absolute(path: Path) -> Path:
    return Path(os.path.abspath(path))  # noqa: PTH100 - `..` is taken away, links are kept


def _real(path: Path) -> Path:
    try:
        return Path(os.path.realpath(path))
    except (OSError, ValueError) as error:
        raise Refused("it is not a path") from error
