"""Statements of the block `plate` that say where no wire may run: screw holes, areas."""

from __future__ import annotations

from matrixgen.source.statements.cures import with_commas, with_word
from matrixgen.source.statements.statement import Lesson, Statement

FIRST_WORDS = {"hole": 1, "keep_clear": 2}
"""How many words stand before the place of each of these statements, by the grammar's rule."""

_UNIT = "lengths are in key units of 19.05 mm, without a unit"
_HOLE = "write its middle in key units, as in `hole at 3, 1`"
_AREA = "write its upper left corner, its width and its height, as in `keep clear 0, 1.2, 2, 0.8`"
_NO_NUMBER = ("x", "19mm", "(1)")
"""What is often written for a number, and is none."""

_BEFORE_A_LENGTH = ("", "1, ", "1, 2, ", "1, 2, 3, ")
"""Beginnings of an area's numbers after which another one is to come."""

HOLE = Statement(
    rule="hole",
    keyword="hole",
    block="plate",
    often="any",
    form="hole at 3, 1",
    lessons=(
        Lesson(
            message="expected `at` and the hole's place, found `{found}`",
            help=_HOLE,
            broken=("plate\n  hole 1, 0.5\n", "plate\n  hole left\n"),
            cure=with_word("at"),
        ),
        Lesson(
            message="no position follows `{found}`",
            help=_HOLE,
            broken=("plate\n  hole\n", "plate\n  hole at\n"),
        ),
        Lesson(
            message="`{found}` is not a position in key units",
            help=f"{_HOLE}; {_UNIT}",
            broken=tuple(
                f"plate\n  hole at {before}{word}\n"
                for before in ("", "1, ")
                for word in (*_NO_NUMBER, ",")
            ),
        ),
        Lesson(
            message="`{found}` is not a number",
            help="write a digit before the point, as in `hole at 0.5, 3`",
            broken=("plate\n  hole at .5, 1\n", "plate\n  hole at 1, .5\n"),
        ),
        Lesson(
            message="expected the comma between the two numbers, found `{found}`",
            help=f"{_HOLE}; {_UNIT}",
            broken=("plate\n  hole at 1 0.5\n", "plate\n  hole at 19 mm, 9 mm\n"),
            cure=with_commas,
        ),
        Lesson(
            message="no second number follows `{found}`",
            help=_HOLE,
            broken=("plate\n  hole at 1\n", "plate\n  hole at 1,\n"),
        ),
        Lesson(
            message="`{found}` follows the hole's place, which ends the line",
            help=f"a hole has no size and no angle; {_UNIT}",
            broken=(
                "plate\n  hole at 1, 0.5 mm\n",
                "plate\n  hole at 1, 0.5, 3\n",
                "plate\n  hole at 1, 0.5 turned 15\n",
            ),
        ),
    ),
)

KEEP_CLEAR = Statement(
    rule="keep_clear",
    keyword="keep",
    called="keep clear",
    block="plate",
    often="any",
    form="keep clear 0, 1.2, 2, 0.8",
    lessons=(
        Lesson(
            message="expected the word `clear`, found `{found}`",
            help=_AREA,
            broken=("plate\n  keep 0, 1.2, 2, 0.8\n", "plate\n  keep out\n"),
            cure=with_word("clear"),
        ),
        Lesson(
            message="`{found}` is not followed by the word `clear`",
            help=_AREA,
            broken=("plate\n  keep\n",),
        ),
        Lesson(
            message="expected the area's first number, found `{found}`",
            help=_AREA,
            broken=("plate\n  keep clear at 0, 1.2, 2, 0.8\n",),
        ),
        Lesson(
            message="`{found}` is not a length in key units",
            help=f"{_AREA}; {_UNIT}",
            broken=tuple(
                f"plate\n  keep clear {before}{word}\n"
                for before in _BEFORE_A_LENGTH
                for word in (*_NO_NUMBER, ",")
            ),
        ),
        Lesson(
            message="`{found}` is not a number",
            help="write a digit before the point, as in `keep clear 0, 1.2, 2, 0.8`",
            broken=tuple(f"plate\n  keep clear {before}.5\n" for before in _BEFORE_A_LENGTH),
        ),
        Lesson(
            message="expected a comma, found `{found}`",
            help=f"{_AREA}; {_UNIT}",
            broken=(
                "plate\n  keep clear 0 1.2 2 0.8\n",
                "plate\n  keep clear 0, 1.2 2 0.8\n",
                "plate\n  keep clear 0, 1.2, 2 x 0.8\n",
                "plate\n  keep clear 0, 1.2, 2 by 0.8\n",
                "plate\n  keep clear 0, 1.2 to 2, 2\n",
            ),
            cure=with_commas,
        ),
        Lesson(
            message="the four numbers of an area end too early, after `{found}`",
            help=_AREA,
            broken=(
                "plate\n  keep clear\n",
                "plate\n  keep clear 0\n",
                "plate\n  keep clear 0,\n",
                "plate\n  keep clear 0, 1.2\n",
                "plate\n  keep clear 0, 1.2,\n",
                "plate\n  keep clear 0, 1.2, 2\n",
                "plate\n  keep clear 0, 1.2, 2,\n",
            ),
        ),
        Lesson(
            message="`{found}` follows the area's height, which ends the line",
            help=f"an area has four numbers and no angle; {_UNIT}",
            broken=(
                "plate\n  keep clear 0, 1.2, 2, 0.8 mm\n",
                "plate\n  keep clear 0, 1.2, 2, 0.8, 1\n",
                "plate\n  keep clear 0, 1.2, 2, 0.8 turned 15\n",
            ),
        ),
    ),
)
