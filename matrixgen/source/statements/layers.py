"""The blocks `actions` and `layer`: what the keys do. What a phrase is stands in `phrases`."""

from __future__ import annotations

from matrixgen.source.statements.cures import equals_for_colons
from matrixgen.source.statements.statement import Block, Lesson, Statement

_ACTION = "write a name, `=` and what it does, as in `copy = Ctrl+C`"
_WHILE = "write `layer NAME while ONE and TWO are on`"
_EITHER = "write `KEY = CELL` for the keys that change, or else one cell for every key"

ACTION = Statement(
    rule="action",
    keyword=None,
    block="actions",
    often="any",
    form="copy = Ctrl+C",
    lessons=(
        Lesson(
            message="`{found}` is not a name for an action",
            help="a name has letters, digits, `-` and `_`, as in `copy = Ctrl+C`",
            broken=("actions\n  [ = Ctrl+C\n", "actions\n  = Ctrl+C\n"),
        ),
        Lesson(
            message="expected `=`, found `{found}`",
            help=_ACTION,
            broken=("actions\n  copy Ctrl+C\n",),
        ),
        Lesson(
            message="expected `=`, found `{found}`",
            help=_ACTION,
            broken=("actions\n  copy: Ctrl+C\n", "actions\n  copy:Ctrl+C\n"),
            cure=equals_for_colons,
        ),
        Lesson(
            message="the action ends after `{found}`",
            help=_ACTION,
            broken=("actions\n  copy\n", "actions\n  copy =\n"),
        ),
        Lesson(
            message="`{found}` is not something that a key can do",
            help="write {phrases}",
            broken=("actions\n  copy = ~\n",),
            types=True,
        ),
        Lesson(
            message="`{found}` follows the action, which ends the line",
            help="write one action per line",
            broken=(
                "actions\n  copy = Ctrl C\n",
                "actions\n  copy = nothing more\n",
                "actions\n  more = hold layer a b\n",
                "actions\n  more = latch layer a b\n",
                "actions\n  more = once layer a b\n",
                "actions\n  more = once Ctrl Shift\n",
                "actions\n  more = change base to a b\n",
                "actions\n  more = tap A, hold B C\n",
                "actions\n  more = tap A, hold layer B C\n",
                "actions\n  more = tap A, hold B, by press fast\n",
                "actions\n  update = start boot loader now\n",
            ),
        ),
    ),
)

ACTIONS = Block(
    keyword="actions",
    often="once",
    form="actions",
    lessons=(
        Lesson(
            message="`{found}` follows `actions`, which must be alone on its line",
            help="put each action on an indented line of its own, as in `copy = Ctrl+C`",
            broken=("actions copy\n",),
        ),
    ),
    statements=(ACTION,),
)

ENTRIES = Statement(
    rule="entries",
    keyword=None,
    block="layer",
    often="any",
    form="Q = 1  W = 2",
    lessons=(
        Lesson(
            message="expected `=`, found `{found}`",
            help="write `KEY = CELL`, as in `Q = 1  W = 2`",
            broken=("layer a\n  A: B\n", "layer a\n  A:B\n", "layer a\n  A B: C\n"),
            cure=equals_for_colons,
        ),
        Lesson(
            message="`{found}` does not belong between two keys of a list",
            help="put spaces there, as in `Q = 1  W = 2`; the key for a comma is called `Comma`",
            broken=(
                "layer a\n  A = B, C = D\n",
                "layer a\n  A = B,C = D\n",
                "layer a\n  A = nothing, B = C\n",
                "layer a\n  A = hold layer b, B = C\n",
            ),
        ),
        Lesson(
            message="`{found}` does not belong between two cells",
            help="put spaces between the cells of a picture; the key for a comma is called `Comma`",
            broken=(
                "layer a\n  A, B\n",
                "layer a\n  A,B\n",
                "layer a\n  A B, C\n",
                "layer a\n  ~, C\n",
            ),
        ),
        Lesson(
            message="`{found}` is not a cell",
            help="a cell is one word: a key (`Ctrl+C`), an action's name, or `~` in a picture",
            broken=(
                "layer a\n  A = (B)\n",
                "layer a\n  A B (C)\n",
                "layer a\n  ~ ~ (C)\n",
                "layer a\n  ~ (B)\n",
                "layer a\n  A (B)\n",
                "layer a\n  A = B (C)\n",
                "layer a\n  Ctrl+ C\n",
            ),
            types=True,
        ),
        Lesson(
            message="nothing follows `{found}` for the key to do",
            help="write `KEY = CELL`, as in `Q = 1`",
            broken=("layer a\n  A =\n", "layer a\n  A = B C\n"),
        ),
        Lesson(
            message="`~` cannot be a cell of a list",
            help="leave the key out of the list, and it keeps the action of the layer below",
            broken=("layer a\n  A = ~\n",),
        ),
        Lesson(
            message="`{found}` mixes a list's `KEY = CELL` and a picture's cells in one line",
            help=_EITHER,
            broken=(
                "layer a\n  A = B C D\n",
                "layer a\n  A = B ~\n",
                "layer a\n  A B = C\n",
                "layer a\n  ~ B = C\n",
                "layer a\n  ~ = C\n",
            ),
        ),
    ),
)

PICTURE_LINE = Statement(
    rule="picture_line",
    keyword=None,
    block="layer",
    often="any",
    form="~ 1 2 3 ~",
)

LAYER = Block(
    keyword="layer",
    often="any",
    form="layer numbers",
    lessons=(
        Lesson(
            message="no name of a layer follows `{found}`",
            help="give the layer a name, as in `layer numbers`",
            broken=("layer\n",),
        ),
        Lesson(
            message="`{found}` is not a name for a layer",
            help="a name has letters, digits, `-` and `_`, as in `layer numbers`",
            broken=("layer [\n", "layer 'numbers'\n"),
        ),
        Lesson(
            message="`{found}` follows the layer's name, which ends the line",
            help="put the layer's cells on indented lines",
            broken=("layer numbers on\n",),
        ),
        Lesson(
            message="no layer follows `{found}`",
            help=_WHILE,
            broken=("layer both while\n", "layer both while [\n"),
        ),
        Lesson(
            message="`{found}` names only one layer, and at least two are needed",
            help=_WHILE + "; the cells of a layer that is on with one other belong in that one",
            broken=("layer both while one\n",),
        ),
        Lesson(
            message="expected `and` and another layer, found `{found}`",
            help=_WHILE,
            broken=(
                "layer both while one is on\n",
                "layer both while one two are on\n",
                "layer both while one, two are on\n",
                "layer both while one + two are on\n",
            ),
        ),
        Lesson(
            message="no layer follows `{found}`",
            help=_WHILE,
            broken=("layer both while one and\n", "layer both while one and [\n"),
        ),
        Lesson(
            message="the words `are on` are missing after `{found}`",
            help=_WHILE,
            broken=("layer both while one and two\n",),
        ),
        Lesson(
            message="expected `are on`, found `{found}`",
            help=_WHILE,
            broken=(
                "layer both while one and two on\n",
                "layer both while one and two, three are on\n",
            ),
        ),
        Lesson(
            message="expected the word `on`, found `{found}`",
            help=_WHILE,
            broken=("layer both while one and two are held\n",),
        ),
        Lesson(
            message="the word `on` is missing after `{found}`",
            help=_WHILE,
            broken=("layer both while one and two are\n",),
        ),
        Lesson(
            message="`{found}` follows the layers that are needed, which end the line",
            help="put the layer's cells on indented lines",
            broken=("layer both while one and two are on now\n",),
        ),
    ),
    statements=(ENTRIES, PICTURE_LINE),
)
