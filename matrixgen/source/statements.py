"""The one table of the language's lines: blocks, their statements, and what is known of each.

`grammar/keys.lark` says how each is made up; a row here names the grammar's rule. Whoever adds a
statement adds its rule there, its row here, its lessons in `grammar/lessons`, and its reader in
`blocks`.
"""

from __future__ import annotations

from typing import Any, Literal

from matrixgen.record import Record

Often = Literal["once", "any"]


class StatementKind(Record):
    """One kind of statement, by the grammar's rule for it; `source/tree.py` has the statements.

    `keyword` is its first word, if it has one, and `block` that of the block that it may be in.
    `form` is a line of that kind, to be shown where no lesson fits. `called` is what messages call
    it where its first word alone would not tell it from another.
    """

    rule: str
    keyword: str | None
    block: str
    often: Often
    form: str
    called: str = ""


class BlockKind(Record):
    """One kind of block: its first word, and the statements that may be in it."""

    keyword: str
    often: Often
    form: str
    statements: tuple[StatementKind, ...]


def _block(keyword: str, often: Often, form: str, *rows: tuple[Any, ...]) -> BlockKind:
    """Return a block of the statements in `rows`: rule, first word, how often, form, maybe name."""
    statements = (
        StatementKind(rule, word, keyword, often, *more) for rule, word, often, *more in rows
    )
    return BlockKind(keyword, often, form, tuple(statements))


_BLOCKS = (
    _block(
        "keyboard",
        "once",
        'keyboard "Heron 12"',
        ("controller", "controller", "once", "controller stick-32u4"),
        ("debounce", "debounce", "once", "debounce 5 ms"),
        ("maker", "maker", "once", 'maker "Somebody"'),
        ("usb", "usb", "once", "usb 1209:0001"),
        ("boot_hold", "boot-loader", "once", "boot-loader hold Esc Backspace", "boot-loader hold"),
        (
            "double_reset",
            "boot-loader",
            "once",
            "boot-loader double reset",
            "boot-loader double reset",
        ),
        ("once_lasts", "once", "once", "once lasts 3000 ms", "once lasts"),
        ("hold_after", "hold", "once", "hold after 180 ms", "hold after"),
        ("roll_within", "roll", "once", "roll 120 ms"),
        ("computer", "computer", "once", "computer de on windows"),
        ("pace", "pace", "once", "pace 8 ms"),
        ("together_within", "together", "once", "together within 30 ms", "together within"),
        ("remember", "remember", "once", "remember base", "remember base"),
        ("pointer", "pointer", "once", "pointer 40 to 900 steps a second within 700 ms"),
        ("wheel", "wheel", "once", "wheel 8 to 30 steps a second within 1000 ms"),
        ("allow", "allow", "any", "allow pin-with-second-function PE2"),
    ),
    _block(
        "plate",
        "once",
        "plate",
        ("plate_line", "line", "any", "line in 0.25 down 0.5 Q Enter:1.5 ~0.5 KeypadEnter:1x2"),
        ("cluster", "cluster", "any", "cluster thumb at 3, 4.5 turned 15"),
        ("mirrored", "cluster", "any", "cluster right mirrors left about 7.5"),
        ("hole", "hole", "any", "hole at 3, 1 for M2.5"),
        ("keep_clear", "keep", "any", "keep clear 0, 1.2, 2, 0.8", "keep clear"),
        (
            "controller_place",
            "controller",
            "once",
            "controller at 3, 0.5 turned 90",
            "controller at",
        ),
        ("outline", "outline", "once", "outline margin 6 mm radius 2 mm"),
        ("cut_out", "cut-out", "once", "cut-out 13.8 x 13.8 mm"),
        ("thickness", "thickness", "once", "thickness 3 mm"),
        ("stabiliser", "stabiliser", "any", "stabiliser none Enter Space"),
        ("light_place", "light", "any", "light CapsLock at 8, 0"),
        ("knob_place", "knob", "any", "knob volume at 7.5, 0.5"),
    ),
    _block(
        "wiring",
        "once",
        "wiring",
        ("drive", "drive", "once", "drive columns, sense rows"),
        ("diodes", "diodes", "once", "diodes 1N4148, band toward columns"),
        ("without", "without", "any", "without diode Esc Q"),
        ("reversed", "reversed", "any", "reversed Tab"),
        ("settle", "settle", "once", "settle 4 us"),
        ("row", "row", "any", "row r0 on PD0 wire yellow Q W E"),
        ("column", "column", "any", "column c0 on PB0 wire blue Q A Z"),
        ("light", "light", "any", "light CapsLock on PB7 red"),
        ("knob", "knob", "any", "knob volume on PD2 PD3"),
    ),
    _block(
        "actions",
        "once",
        "actions",
        ("action", None, "any", "copy = Ctrl+C"),
    ),
    _block(
        "layer",
        "any",
        "layer numbers",
        ("entries", None, "any", "Q = 1  W = 2"),
        ("picture_line", None, "any", "~ 1 2 3 ~"),
        ("together", "together", "any", "together J K within 30 ms = Esc"),
    ),
)

BLOCKS: dict[str, BlockKind] = {block.keyword: block for block in _BLOCKS}
"""Every block by its first word."""

STATEMENTS: dict[str, StatementKind] = {
    statement.rule: statement for block in BLOCKS.values() for statement in block.statements
}
"""Every statement by the grammar's rule for it."""

KEYWORDS: dict[str, tuple[str, ...]] = {
    name: tuple(dict.fromkeys(one.keyword for one in block.statements if one.keyword))
    for name, block in BLOCKS.items()
}
"""The first words that a block's statements have."""

BEGIN_WITH_NAMES: frozenset[str] = frozenset(
    block.keyword for block in _BLOCKS if any(not one.keyword for one in block.statements)
)
"""The blocks in which a line may begin with any word: the name of a key or of an action."""

BLOCK_OF: dict[str, str] = {
    word: name for name, words in reversed(KEYWORDS.items()) for word in words
}
"""The block of each keyword of a statement: the first one that has it."""


def form_of(first: str) -> str | None:
    """Return what a line that starts with a keyword looks like."""
    if first in BLOCKS:
        return BLOCKS[first].form
    return next((one.form for one in STATEMENTS.values() if one.keyword == first), None)
