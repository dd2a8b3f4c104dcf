"""The tables of `grammar/keys.lark`, kept on disk from one run to the next.

Lark makes them (`by_lark.py`), and to import Lark alone takes six times as long as an empty Python
process: so it is asked once. They are kept in the user's cache folder, with everything that they
depend on. A damaged file is made anew. Where the folder cannot be written, each run asks Lark. The
format is `marshal`, which loads numbers and strings and runs no code.
"""

from __future__ import annotations

import marshal
import sys
from contextlib import suppress
from importlib.machinery import PathFinder
from pathlib import Path
from typing import Any
from zlib import crc32

from matrixgen.cache import cache_folder, keep, kept
from matrixgen.record import Record
from matrixgen.resources import resource


class GrammarRule(Record, kw_only=True):
    """A rule of the grammar, with each of its options on its own.

    `origin` is what it makes, `size` how many things it makes it of, and `name` that of the tree.
    `kept` are the places, from 0, of the things that the tree keeps; of one whose own children
    stand for it, -1 - place. `every` are those of a tree that keeps all words.
    """

    origin: str
    size: int
    name: str
    kept: tuple[int, ...]
    every: tuple[int, ...]


class Terminal(Record):
    """A kind of words, by the regular expression that matches them, or the only word there is."""

    name: str
    regular: str
    word: str | None


class Tables(Record, kw_only=True):
    """What a parser does next.

    `states` has for each of its states what may come, by name, and what is done then: the number of
    the state to go to, or for a rule that ends there, -1 - its number. `terminals` are in the order
    in which they are to be tried; `ignored` are those that no rule has to name.
    """

    start: int
    end: int
    states: tuple[dict[str, int], ...]
    rules: tuple[GrammarRule, ...]
    terminals: tuple[Terminal, ...]
    ignored: frozenset[str]


def keys_tables() -> Tables:
    """Return the tables of the language that people write."""
    grammar = (resource("grammar") / "keys.lark").read_bytes()
    depends_on = b"\0".join([grammar, *_makers()])
    path = cache_folder() / f"keys-{crc32(depends_on):08x}.tables"
    return _loaded(path, depends_on) or _made(grammar.decode("utf-8"), path, depends_on)


def _makers() -> list[bytes]:
    """Return what tells versions of Python, of Lark and of our own side of it apart."""
    python = f"{sys.implementation.cache_tag} {sys.hexversion:x}"
    found = PathFinder.find_spec("lark")  # its version stands in that file
    lark = [Path(found.origin)] if found and found.origin else []
    files = [Path(__file__).with_name("by_lark.py"), *lark]
    return [python.encode(), *(file.read_bytes() for file in files)]


def _loaded(path: Path, depends_on: bytes) -> Tables | None:
    try:
        made_of, plain = marshal.loads(kept(path) or b"")
        return _from(plain) if made_of == depends_on else None
    except Exception:  # whatever is wrong with the file, the tables can be made again
        return None


def _made(grammar: str, path: Path, depends_on: bytes) -> Tables:
    from matrixgen.source.by_lark import lark_parser, tables_of

    tables = tables_of(lark_parser(grammar))
    with suppress(Exception):  # a read-only home, a full disk: the next run makes its own
        keep(marshal.dumps((depends_on, _plain(tables))), path)
    return tables


def _plain(tables: Tables) -> dict[str, Any]:
    """Return tables without records, which `marshal` does not know."""
    return vars(tables) | {
        "rules": [vars(rule) for rule in tables.rules],
        "terminals": [vars(one) for one in tables.terminals],
    }


def _from(plain: dict[str, Any]) -> Tables:
    rules = tuple(GrammarRule(**one) for one in plain.pop("rules"))
    terminals = tuple(Terminal(**one) for one in plain.pop("terminals"))
    return Tables(**plain, rules=rules, terminals=terminals)
