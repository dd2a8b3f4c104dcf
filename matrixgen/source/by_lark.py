"""The tables of a grammar, by Lark: it reads the grammar and works out what a parser is to do.

Only this file knows Lark. It is imported where no tables are kept yet.
"""

from __future__ import annotations

from typing import Any

import lark
from lark.grammar import Rule, Symbol
from lark.lexer import TerminalDef
from lark.parsers.lalr_analysis import Shift

from matrixgen.record import changed
from matrixgen.source.parse_tables import GrammarRule, Tables, Terminal


def lark_parser(grammar: str, **options: Any) -> lark.Lark:
    """Return Lark's own parser of a grammar."""
    made = {"parser": "lalr", "lexer": "contextual", "propagate_positions": True, **options}
    return lark.Lark(grammar, **made)


def tables_of(parser: lark.Lark) -> Tables:
    """Return the tables by which Lark's parser works."""
    front: Any = parser.parser
    table = front.parser._parse_table
    (start,), (end,) = table.start_states.values(), table.end_states.values()
    ends = {rule: -1 - number for number, rule in enumerate(parser.rules)}
    return Tables(
        start=start,
        end=end,
        states=tuple(_state(table.states[number], ends) for number in range(len(table.states))),
        rules=tuple(map(_rule, parser.rules)),
        terminals=tuple(map(_terminal, front.lexer.root_lexer.terminals)),
        ignored=frozenset(parser.ignore_tokens),
    )


def _state(does: dict[Any, tuple[Any, Any]], ends: dict[Rule, int]) -> dict[str, int]:
    """Return what is done in a state, by what comes; see `Tables`."""
    return {
        str(name): place if action is Shift else ends[place]
        for name, (action, place) in does.items()
    }


def in_order(tables: Tables) -> Tables:
    """Return the same tables, with the states numbered as they are met from the first one.

    Lark meets them in sets, so its numbers differ from one process to the next.
    """
    met, places = [tables.start], {tables.start: 0}
    states = [dict(sorted(does.items())) for does in tables.states]
    for number in met:
        for place in states[number].values():
            if place >= 0 and place not in places:
                places[place] = len(met)
                met.append(place)
    numbered = (
        {name: places.get(place, place) for name, place in states[one].items()} for one in met
    )
    return changed(tables, start=0, end=places[tables.end], states=tuple(numbered))


def _rule(rule: Rule) -> GrammarRule:
    options: Any = rule.options
    assert not (options.expand1 or any(options.empty_indices)), (
        f"`{rule}` has `?` or `[...]`, which no tree here is made for"
    )
    every = [(_place(*one), one[1]) for one in enumerate(rule.expansion)]
    return GrammarRule(
        origin=str(rule.origin.name),
        size=len(every),
        name=str(rule.alias or rule.origin.name),
        kept=tuple(n for n, one in every if not getattr(one, "filter_out", False)),
        every=tuple(n for n, _ in every),
    )


def _place(place: int, symbol: Symbol) -> int:
    is_inlined = not symbol.is_term and symbol.name.startswith("_")
    return -1 - place if is_inlined else place


def _terminal(one: TerminalDef) -> Terminal:
    is_word = one.pattern.type == "str" and not one.pattern.flags
    return Terminal(one.name, one.pattern.to_regexp(), one.pattern.value if is_word else None)
