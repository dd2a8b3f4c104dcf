"""The grammars by which editors colour a file without the language server, made from our own.

`python -m tests.editor.grammars` writes `grammar/keys.tmLanguage.json` (TextMate's form, which VS
Code reads) and `grammar/keys.vim`. Which words of the language may stand in which block is what
`keys.lark` says; nothing of it is listed here.
"""

from __future__ import annotations

import json
import re
from collections import defaultdict
from functools import cache
from pathlib import Path

from matrixgen.editor.finite import words_of_terminal
from matrixgen.source.by_lark import lark_parser
from matrixgen.source.statements import BLOCKS, KEYWORDS

GRAMMAR = Path(__file__).parents[2] / "grammar"
TEXTMATE, VIM = GRAMMAR / "keys.tmLanguage.json", GRAMMAR / "keys.vim"

TEXT = r'"(?:[^"\\]|\\.)*"'
NUMBER = r"-?[0-9]+(?:\.[0-9]+)?(?:x[0-9]+(?:\.[0-9]+)?)?(?=[\s,#]|[a-zA-Zµμ]{1,2}(?:[\s,#]|$)|$)"
NO_UNITS = frozenset({"a", "at", "by", "in", "is", "on", "to", "x"})
BEFORE, AFTER = r"(?<![^\s,=])", r"(?![^\s,=#])"


@cache
def _terminals_of() -> dict[str, frozenset[str]]:
    """The terminals that each rule of the grammar leads to."""
    parser = lark_parser((GRAMMAR / "keys.lark").read_text(encoding="utf-8"))
    leads: dict[str, set[str]] = defaultdict(set)
    for rule in parser.rules:
        leads[str(rule.origin.name)] |= {str(symbol.name) for symbol in rule.expansion}
    found = {}
    for rule in leads:
        seen, waiting = {rule}, [rule]
        while waiting:
            new = leads.get(waiting.pop(), set()) - seen
            seen |= new
            waiting += new
        found[rule] = frozenset(seen - leads.keys())
    return found


def words_of_block(block: str) -> list[str]:
    """The words of the language that a block may have, those of its first line too."""
    each = (words_of_terminal(terminal) for terminal in _terminals_of()[block])
    words = {word for some in each for word in some if word[0].isalpha()}
    return sorted(words, key=lambda word: (-len(word), word))


def plain_words(block: str) -> list[str]:
    """Those of them that are no units with a capital, such as `V`, which is a key as well."""
    return [word for word in words_of_block(block) if word.islower()]


def units() -> list[str]:
    """Words that follow a number, in any block."""
    each = {word for block in BLOCKS for word in words_of_block(block)}
    return sorted({word for word in each if len(word) <= 2} - NO_UNITS)


def _any(words: list[str]) -> str:
    return "|".join(map(re.escape, words))


def textmate() -> str:
    """The grammar in TextMate's form."""
    words = {block: plain_words(block) for block in BLOCKS}
    blocks = [
        {
            "name": f"meta.block.{block}.keys",
            "begin": rf"^({block}){AFTER}",
            "beginCaptures": {"1": {"name": "keyword.control.block.keys"}},
            "end": r"^(?=[^ \t#])",
            "patterns": [
                {"include": "#between"},
                *(
                    [
                        {
                            "match": rf"^[ \t]+({_any(list(KEYWORDS[block]))}){AFTER}",
                            "captures": {"1": {"name": "keyword.control.statement.keys"}},
                        }
                    ]
                    if KEYWORDS[block]
                    else []
                ),
                {
                    "match": rf"^[ \t]+(and){AFTER}",
                    "captures": {"1": {"name": "keyword.other.keys"}},
                },
                {"match": rf"{BEFORE}({_any(words[block])}){AFTER}", "name": "keyword.other.keys"},
                {
                    "match": rf"(?<=[0-9] |[0-9])({_any(units())}){AFTER}",
                    "name": "keyword.other.unit.keys",
                },
                {"match": rf"(?<![^\s,~:]){NUMBER}", "name": "constant.numeric.keys"},
                {"match": r"~(?=[0-9])", "name": "constant.numeric.keys"},
                {"match": rf"{BEFORE}~{AFTER}", "name": "constant.language.left-alone.keys"},
                {"match": "[=,]", "name": "punctuation.separator.keys"},
            ],
        }
        for block in BLOCKS
    ]
    made = {
        "name": "matrixgen keys",
        "scopeName": "source.keys",
        "fileTypes": ["keys"],
        "patterns": [{"include": "#between"}, *blocks],
        "repository": {
            "between": {
                "patterns": [
                    {"match": "#.*$", "name": "comment.line.number-sign.keys"},
                    {"match": TEXT, "name": "string.quoted.double.keys"},
                ]
            }
        },
    }
    return json.dumps(made, indent=2, ensure_ascii=False) + "\n"


def vim() -> str:
    """The grammar as Vim's syntax file."""
    lines = [
        '" Colours of .keys files. Made by tests/editor/grammars.py from keys.lark.',
        'if exists("b:current_syntax")',
        "  finish",
        "endif",
        "syntax iskeyword @,48-57,_,-,192-255",
        "syntax sync fromstart",
        r"syntax match keysComment /#.*$/ contains=@Spell",
        r'syntax region keysText start=/"/ skip=/\\./ end=/"/ oneline',
        r"syntax match keysNumber /\%(^\|[ \t,~:]\)\@<=-\?\d\+\%(\.\d\+\)\?\>/ contained",
        r"syntax match keysLeftAlone /\~/ contained",
    ]
    for block in BLOCKS:
        group = f"keys{block.capitalize()}"
        firsts = {block, *KEYWORDS[block]}
        others = [word for word in plain_words(block) if word not in firsts]
        lines.append(
            rf"syntax region {group} matchgroup=keysBlock start=/^{block}\>/ "
            rf"end=/^\ze[^ \t#]/ contains=keysComment,keysText,keysNumber,keysLeftAlone,"
            f"{group}Statement,{group}Word"
        )
        lines.append(f"syntax keyword {group}Word {' '.join(['and', *others])} contained")
        if KEYWORDS[block]:
            lines.append(
                rf"syntax match {group}Statement "
                rf"/^\s\+\zs\%({_vim_any(list(KEYWORDS[block]))}\)\>/ contained"
            )
            lines.append(f"highlight default link {group}Statement Statement")
        lines.append(f"highlight default link {group}Word Keyword")
    lines += [
        "highlight default link keysComment Comment",
        "highlight default link keysText String",
        "highlight default link keysNumber Number",
        "highlight default link keysLeftAlone Special",
        "highlight default link keysBlock Structure",
        'let b:current_syntax = "keys"',
    ]
    return "\n".join(lines) + "\n"


def _vim_any(words: list[str]) -> str:
    return r"\|".join(words)


def main() -> None:
    TEXTMATE.write_text(textmate(), encoding="utf-8")
    VIM.write_text(vim(), encoding="utf-8")


if __name__ == "__main__":
    main()
