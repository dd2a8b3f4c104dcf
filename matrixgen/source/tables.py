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
from matrixgen.resources import resource
from matrixgen.source.parse_tables import GrammarRule, Tables, Terminal


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
    from matrixgen.source.by_lark import in_order, lark_parser, tables_of

    tables = in_order(tables_of(lark_parser(grammar)))
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
