"""The parser of `grammar/keys.lark`, its tables kept on disk from one run to the next.

Making the tables takes four times as long as loading them. They are kept in the user's cache
folder, under a name that hashes everything they depend on. A damaged file is made anew. Where the
folder cannot be written, each run makes its own tables. The format is `marshal`, which loads
numbers and strings and runs no code.
"""

from __future__ import annotations

import hashlib
import marshal
import sys
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any

import lark
from lark.lark import _LOAD_ALLOWED_OPTIONS  # what `Lark.save` leaves out of a file as well

from matrixgen.cache import cache_folder, keep, kept
from matrixgen.resources import resource
from matrixgen.source.lexer import KeysLexer

_OPTIONS: dict[str, Any] = {
    "propagate_positions": True,
    "_plugins": {"ContextualLexer": KeysLexer},
}


@cache
def keys_parser(*, keeps_all: bool = False) -> lark.Lark:
    """Return the parser of the language; the same one each time.

    One that keeps all has in its trees the words of the language, too, and signs between words.
    """
    grammar = (resource("grammar") / "keys.lark").read_bytes()
    kind = "words" if keeps_all else "keys"
    path = cache_folder() / f"{kind}-{_fingerprint(grammar)}.tables"
    return _loaded(path) or _made(grammar.decode("utf-8"), path, keeps_all=keeps_all)


@cache
def meant_terminals() -> frozenset[str]:
    """Return the terminals that trees keep in any case: all but words of the language and signs."""
    terminals = keys_parser(keeps_all=True).terminals
    patterns = (one.name for one in terminals if one.pattern.type == "re")
    return frozenset(name for name in patterns if not name.startswith("_"))


def _fingerprint(grammar: bytes) -> str:
    """Return a name for the tables of this grammar, Lark and Python."""
    versions = f"{lark.__version__} {sys.implementation.cache_tag} {sys.hexversion:x}\n"
    return hashlib.sha256(versions.encode() + grammar).hexdigest()[:32]


def _loaded(path: Path) -> lark.Lark | None:
    try:
        data, memo = marshal.loads(kept(path) or b"")
        return _from(data, memo)
    except Exception:  # whatever is wrong with the file, the tables can be made again
        return None


def _from(data: Any, memo: Any) -> lark.Lark:
    load = lark.Lark._load_from_dict  # what Lark's own stand-alone parsers use
    parser: lark.Lark = load(data, memo, **_OPTIONS)  # type: ignore[no-untyped-call]
    return parser


def _made(grammar: str, path: Path, *, keeps_all: bool) -> lark.Lark:
    options = {**_OPTIONS, "keep_all_tokens": keeps_all}
    parser = lark.Lark(grammar, parser="lalr", lexer="contextual", **options)
    with suppress(Exception):  # a read-only home, a full disk: the next run makes its own
        keep(marshal.dumps(_tables_of(parser)), path)
    return parser


def _tables_of(parser: lark.Lark) -> tuple[Any, Any]:
    data, memo = parser.memo_serialize([lark.lexer.TerminalDef, lark.grammar.Rule])
    options = data["options"].items()
    data["options"] = {name: value for name, value in options if name not in _LOAD_ALLOWED_OPTIONS}
    return data, memo
