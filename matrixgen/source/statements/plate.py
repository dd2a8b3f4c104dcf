"""The block `plate`: where the switches sit."""

from __future__ import annotations

from matrixgen.source.statements.cures import without_commas
from matrixgen.source.statements.places import HOLE, KEEP_CLEAR
from matrixgen.source.statements.statement import Block, Lesson, Statement

_CLUSTER = "write its name and its corner, as in `cluster thumb at 3, 4.5`"
_MIRRORED = "write the other cluster's name and the line between, as in `mirrors left about 7.5`"
_BLANKS = "put spaces between the names of keys; the key for a comma is called `Comma`"
_BEFORE_A_KEY = ("Q ", "Q:2 ", "~1 ", "Q W ", "Q W:2 ", "Q ~1 ", "~1 Q ", "~1 Q:2 ")
"""Beginnings of lines after which the parser may be in different states."""

LINE = Statement(
    rule="plate_line",
    keyword="line",
    block="plate",
    often="any",
    form="line in 0.25 down 0.5 Q Enter:1.5 ~0.5 KeypadEnter:1x2",
    lessons=(
        Lesson(
            message="`{found}` has no key",
            help="name the line's keys from left to right, as in `line Q W E`",
            broken=("plate\n  line\n",),
        ),
        Lesson(
            message="`{found}` is not the name of a key",
            help="a name has letters, digits, `-` and `_`; put a space between two names",
            broken=("plate\n  line Q/W E\n", "plate\n  line Q/W\n", "plate\n  line in 0.25 Q/W\n"),
        ),
        Lesson(
            message="`{found}` is not the name of a key",
            help=_BLANKS,
            broken=(
                "plate\n  line , Q\n",
                "plate\n  line ,Q\n",
                "plate\n  line in 0.25 , Q\n",
                "plate\n  line in 0.25 ,Q\n",
            ),
        ),
        Lesson(
            message="`{found}` is not the name of a key",
            help="the key with that sign is called `Equal`",
            broken=tuple(
                f"plate\n  line {before}{sign}\n"
                for before in ("", *_BEFORE_A_KEY)
                for sign in ("= W", "=W")
            ),
        ),
        Lesson(
            message="`{found}` has no key before it",
            help="a width follows its key's name, as in `Enter:1.5`; a gap is written `~0.5`",
            broken=("plate\n  line :1.5 Q\n", "plate\n  line : Q\n"),
        ),
        Lesson(
            message="`{found}` does not belong between the names of keys",
            help=_BLANKS,
            broken=tuple(
                f"plate\n  line {before}{sign}\n"
                for before in _BEFORE_A_KEY
                for sign in (", W", ",W")
            ),
            cure=without_commas,
        ),
        Lesson(
            message="`{found}` is not the name of a key, a width or a gap",
            help="keys are written `Q`, `Enter:1.5`, `KeypadEnter:1x2` (width by height); "
            "a gap is written `~0.5`",
            broken=(
                "plate\n  line Q W/E\n",
                "plate\n  line Q:wide\n",
                "plate\n  line Q ~ W\n",
                "plate\n  line Q:1.5:2 W\n",
                "plate\n  line ~0.5 W/E\n",
                "plate\n  line Q:1.5 (W)\n",
                "plate\n  line Q W E/R\n",
                "plate\n  line Q W:2 (E)\n",
                "plate\n  line Q ~0.5 (W)\n",
                "plate\n  line ~0.5 Q (W)\n",
                "plate\n  line ~0.5 Q:2 (W)\n",
            ),
        ),
        Lesson(
            message="no width follows `{found}`",
            help="lines have no number, and a width follows its key without a space: `Enter:1.5`",
            broken=("plate\n  line 1: Q W\n",),
        ),
        Lesson(
            message="`{found}` is not a distance",
            help="write it in key units, as in `line in 0.25 Q W` or `line down 0.5 Q W`",
            broken=("plate\n  line in 0.25x A\n", "plate\n  line down 1.5u A\n"),
        ),
    ),
)

CLUSTER = Statement(
    rule="cluster",
    keyword="cluster",
    block="plate",
    often="any",
    form="cluster thumb at 3, 4.5 turned 15",
    lessons=(
        Lesson(
            message="expected the cluster's name, found `{found}`",
            help=_CLUSTER,
            broken=("plate\n  cluster\n", "plate\n  cluster 'x\n"),
        ),
        Lesson(
            message="after the cluster's name comes `at` and its place, or `mirrors` and another "
            "cluster, not `{found}`",
            help="write its name and its corner, as in `cluster thumb at 3, 4.5 turned 15`",
            broken=("plate\n  cluster thumb\n", "plate\n  cluster thumb 3, 4.5\n"),
        ),
        Lesson(
            message="`{found}` is not the place of a cluster",
            help="write two numbers in key units with a comma between, "
            "as in `cluster thumb at 3, 4.5`",
            broken=(
                "plate\n  cluster thumb at x\n",
                "plate\n  cluster thumb at 3 4.5\n",
                "plate\n  cluster thumb at 3,\n",
            ),
        ),
        Lesson(
            message="expected `turned` and an angle, or nothing, found `{found}`",
            help="write degrees clockwise, as in `cluster thumb at 3, 4.5 turned 15`",
            broken=(
                "plate\n  cluster thumb at 3, 4.5 15\n",
                "plate\n  cluster thumb at 3, 4.5 turned left\n",
            ),
        ),
    ),
)

MIRRORED = Statement(
    rule="mirrored",
    keyword="cluster",
    block="plate",
    often="any",
    form="cluster right mirrors left about 7.5",
    lessons=(
        Lesson(
            message="`{found}` names no cluster",
            help=_MIRRORED,
            broken=("plate\n  cluster right mirrors\n", "plate\n  cluster right mirrors 'left'\n"),
        ),
        Lesson(
            message="expected `about` and the mirror's place, found `{found}`",
            help=_MIRRORED,
            broken=(
                "plate\n  cluster right mirrors left\n",
                "plate\n  cluster right mirrors left at 7\n",
            ),
        ),
        Lesson(
            message="`{found}` is not a position in key units",
            help=_MIRRORED,
            broken=(
                "plate\n  cluster right mirrors left about\n",
                "plate\n  cluster right mirrors left about x\n",
            ),
        ),
        Lesson(
            message="`{found}` follows the mirror's place, which ends the line",
            help="the mirror is a vertical line, and its one number says how far right it is",
            broken=("plate\n  cluster right mirrors left about 7, 3\n",),
        ),
    ),
)

PLATE = Block(
    keyword="plate",
    often="once",
    form="plate",
    lessons=(
        Lesson(
            message="`{found}` follows `plate`, which must be alone on its line",
            help="put each row of switches on an indented line of its own, as in `line A B C`",
            broken=("plate A B\n",),
        ),
    ),
    statements=(LINE, CLUSTER, MIRRORED, HOLE, KEEP_CLEAR),
)
