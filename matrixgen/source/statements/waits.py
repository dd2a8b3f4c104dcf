"""Statements of the block `keyboard` on how long things last: a press, `once`, a changed base."""

from __future__ import annotations

from matrixgen.source.statements.cures import with_unit
from matrixgen.source.statements.statement import Lesson, Statement

_DEBOUNCE = "write a number and its unit, as in `debounce 5 ms`"
_PRESS = "write how long a press must last, as in `debounce 5 ms, press 2 ms`"
_ONCE = "write a number and its unit, as in `once lasts 3000 ms`"

DEBOUNCE = Statement(
    rule="debounce",
    keyword="debounce",
    block="keyboard",
    often="once",
    form="debounce 5 ms",
    lessons=(
        Lesson(
            message="expected the debounce time, found `{found}`",
            help=_DEBOUNCE,
            broken=('keyboard "A"\n  debounce fast\n', 'keyboard "A"\n  debounce\n'),
        ),
        Lesson(
            message="the debounce time `{found}` has no unit `ms`",
            help=_DEBOUNCE,
            broken=('keyboard "A"\n  debounce 5\n',),
            cure=with_unit("ms"),
        ),
        Lesson(
            message="expected the unit `ms`, found `{found}`",
            help="write the time in milliseconds, as in `debounce 5 ms`",
            broken=('keyboard "A"\n  debounce 5 seconds\n',),
        ),
        Lesson(
            message="`{found}` follows the debounce time, which ends the line",
            help=_PRESS,
            broken=('keyboard "A"\n  debounce 5 ms press 2 ms\n',),
        ),
        Lesson(
            message="nothing follows the comma of `{found}`",
            help=_PRESS,
            broken=('keyboard "A"\n  debounce 5 ms,\n',),
        ),
        Lesson(
            message="expected the word `press`, found `{found}`",
            help=_PRESS,
            broken=(
                'keyboard "A"\n  debounce 5 ms, release 2 ms\n',
                'keyboard "A"\n  debounce 5 ms, 2 ms\n',
            ),
        ),
        Lesson(
            message="expected the time of a press, found `{found}`",
            help=_PRESS,
            broken=(
                'keyboard "A"\n  debounce 5 ms, press\n',
                'keyboard "A"\n  debounce 5 ms, press soon\n',
            ),
        ),
        Lesson(
            message="the time of a press `{found}` has no unit `ms`",
            help=_PRESS,
            broken=('keyboard "A"\n  debounce 5 ms, press 2\n',),
            cure=with_unit("ms"),
        ),
        Lesson(
            message="expected the unit `ms`, found `{found}`",
            help=_PRESS,
            broken=('keyboard "A"\n  debounce 5 ms, press 2 seconds\n',),
        ),
    ),
)

ONCE_LASTS = Statement(
    rule="once_lasts",
    keyword="once",
    called="once lasts",
    block="keyboard",
    often="once",
    form="once lasts 3000 ms",
    lessons=(
        Lesson(
            message="`{found}` is not followed by the word `lasts`",
            help=_ONCE,
            broken=('keyboard "A"\n  once\n',),
        ),
        Lesson(
            message="expected the word `lasts`, found `{found}`",
            help=_ONCE,
            broken=('keyboard "A"\n  once 3000 ms\n', 'keyboard "A"\n  once layer nav\n'),
        ),
        Lesson(
            message="expected the time, found `{found}`",
            help=_ONCE,
            broken=('keyboard "A"\n  once lasts\n', 'keyboard "A"\n  once lasts long\n'),
        ),
        Lesson(
            message="the time `{found}` has no unit `ms`",
            help=_ONCE,
            broken=('keyboard "A"\n  once lasts 3000\n',),
            cure=with_unit("ms"),
        ),
        Lesson(
            message="expected the unit `ms`, found `{found}`",
            help="write the time in milliseconds, as in `once lasts 3000 ms`",
            broken=('keyboard "A"\n  once lasts 3 s\n',),
        ),
    ),
)

REMEMBER = Statement(
    rule="remember",
    keyword="remember",
    called="remember base",
    block="keyboard",
    often="once",
    form="remember base",
    lessons=(
        Lesson(
            message="`{found}` does not say what to remember",
            help="write `remember base`: a changed base then outlasts a power cut",
            broken=('keyboard "A"\n  remember\n', 'keyboard "A"\n  remember layer\n'),
        ),
        Lesson(
            message="`{found}` follows `remember base`, which ends the line",
            help="a key names the layer, as in `change base to NAME`",
            broken=('keyboard "A"\n  remember base dvorak\n',),
        ),
    ),
)
