"""C that stands under a condition, decided: what a keyboard does not have is not in its sources.

The files under `templates/firmware` say with `#if HAS_MEDIA` what only some keyboards need, and
compile as they lie beside a `has.h` that says what there is. In a tree that is written those
conditions are decided, as a preprocessor would (C11 section 6.10.1): a name that nobody defines is
0. A condition of other names, such as a compiler's own or a header's guard, stays as it is.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Set
from dataclasses import dataclass

FEATURES = "tables/has.h"
FACTS = (FEATURES, "port/board.h", "port/chip.h")
"""The headers whose names conditions are decided by."""

SEARCHED = ("engine/", "usb/", "port/", "tables/", "")
"""Where an included file is looked for, beside the one that includes it."""

_OURS = re.compile(r"(?:HAS|CHIP)_(?!H$)\w+")
"""Names that are none of a compiler's, defined or not."""

_DEFINE = re.compile(r"#define (\w+)(?<!_H)(?:$| +(\w+))", re.MULTILINE)
_DIRECTIVE = re.compile(
    r"^ *# *(ifdef|ifndef|if|elif|else|endif)\b *(.*?)(?: */\*.*)?$\n?", re.MULTILINE
)
_NAME = re.compile(r"[A-Za-z_]\w*")
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_INCLUDE = re.compile(r'^#include "([\w/]+\.[ch])"\n', re.MULTILINE)
_NO_CODE = re.compile(r"\s*(?:#ifndef \w+_H|#define \w+_H|#endif|#include .*)?")

Values = Mapping[str, int]


def decided_tree(tree: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return a firmware tree in which only what is there stands: no condition, no empty file.

    A tree is its files by their paths, with slashes. Raises `ValueError` at a condition that is
    written in a way that this module cannot read.
    """
    values = _values(b"".join(tree.get(name, b"") for name in FACTS).decode())
    texts = {
        name: decided(tree[name].decode(), values) for name in tree if name[-2:] in (".c", ".h")
    }
    gone = {name for name, text in texts.items() if name == FEATURES or not _has_code(text)}
    kept = {name: _without(text, name, gone).encode() for name, text in texts.items()}
    return {name: kept.get(name, tree[name]) for name in tree if name not in gone}


def _without(text: str, file: str, gone: Set[str]) -> str:
    """Return the text of a file that includes none that is gone."""
    beside = file.rpartition("/")[0] + "/"

    def line(found: re.Match[str]) -> str:
        return "" if any(folder + found[1] in gone for folder in (beside, *SEARCHED)) else found[0]

    found = _INCLUDE.sub(line, text)
    return _tidied(found) if found != text else text


def _values(text: str) -> dict[str, int]:
    """Return the names that headers define; one that is no number counts as 1."""
    return {name: int(word, 0) if word.isdigit() else 1 for name, word in _DEFINE.findall(text)}


def _has_code(text: str) -> bool:
    """Return whether a C text is more than comments, includes and a header's guard."""
    lines = _COMMENT.sub("", text).splitlines()
    return not all(_NO_CODE.fullmatch(line) for line in lines)


@dataclass
class _Open:
    """A condition whose `#endif` is still to come; of one that stays all lines are kept."""

    stays: bool
    keeps: bool
    has_kept: bool = True


def decided(text: str, values: Values) -> str:
    """Return a C text without the conditions that `values` decide, nor what they exclude."""
    kept: list[str] = []
    opened: list[_Open] = []
    end = 0
    for found in _DIRECTIVE.finditer(text):
        stands = all(one.keeps for one in opened)
        stays = _follow(found[1], found[2], opened, values)
        if stands:
            kept.append(text[end : found.start()])
        if stays and all(one.keeps for one in opened):
            kept.append(found[0])
        end = found.end()
    rest = "".join([*kept, text[end:]])
    return _tidied(rest) if rest != text else text


def _follow(word: str, condition: str, opened: list[_Open], values: Values) -> bool:
    """Take a directive into account; return whether it stays where it is."""
    if word.startswith("if"):
        opened.append(_opened(word, condition, values))
        return opened[-1].stays
    last = opened[-1]
    if word == "endif":
        opened.pop()
    elif not last.stays:
        last.keeps = not last.has_kept and (word == "else" or _holds(condition, values))
        last.has_kept |= last.keeps
    return last.stays


def _opened(word: str, condition: str, values: Values) -> _Open:
    names = [name for name in _NAME.findall(condition) if name != "defined"]
    if not all(name in values or _OURS.fullmatch(name) for name in names):
        return _Open(stays=True, keeps=True)
    holds = (
        _holds(condition, values) if word == "if" else (condition in values) == (word == "ifdef")
    )
    return _Open(stays=False, keeps=holds, has_kept=holds)


def _holds(condition: str, values: Values) -> bool:
    """Return whether one of some terms holds, each of them one or several that all have to."""
    return any(
        all(_term_holds(term.strip(), values) for term in terms.split("&&"))
        for terms in condition.split("||")
    )


def _term_holds(term: str, values: Values) -> bool:
    found = re.fullmatch(r"(!?)(\w+)(?: == (\d+))?", term)
    if found is None:
        raise ValueError(f"a condition that is not understood: {term}")
    value = values.get(found[2], 0)
    holds = value == int(found[3]) if found[3] else value != 0
    return holds != bool(found[1])


def _tidied(text: str) -> str:
    """Return a text without the blank lines that parted what is there from what is gone."""
    text = re.sub(r"\n{3,}", "\n\n", text)
    text = text.replace("{\n\n", "{\n")
    return text.replace("\n\n}", "\n}")
