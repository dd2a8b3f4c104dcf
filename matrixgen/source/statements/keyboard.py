"""The block `keyboard`: what it is called, and on what it may be mounted."""

from __future__ import annotations

from matrixgen.source.statements.statement import Block, Lesson, Statement
from matrixgen.source.statements.waits import DEBOUNCE, ONCE_LASTS, REMEMBER

_NAME = 'write the name in quotes, as in `keyboard "Heron 12"`'
_CONTROLLERS = "write one after each comma, as in `controller stick-32u4, rp2040-40pin`"
_HOLD = "name the keys to be held down together, as in `boot-loader hold Esc Backspace`"

CONTROLLER = Statement(
    rule="controller",
    keyword="controller",
    block="keyboard",
    often="once",
    form="controller stick-32u4",
    lessons=(
        Lesson(
            message="no controller follows `{found}`",
            help='write a name, or the path of a profile in quotes, as in `controller "mine.json"`',
            broken=('keyboard "A"\n  controller\n',),
        ),
        Lesson(
            message="`{found}` is not the name of a controller",
            help='write a path of a profile in quotes, as in `controller "mine.json"`',
            broken=('keyboard "A"\n  controller ./mine.json\n',),
        ),
        Lesson(
            message="`{found}` follows the controller, which ends the line",
            help="put each setting on a line of its own, and a comma between two controllers",
            broken=(
                'keyboard "A"\n  controller stick 5\n',
                'keyboard "A"\n  controller stick, other 5\n',
            ),
        ),
        Lesson(
            message="`{found}` is not the name of a controller",
            help=_CONTROLLERS,
            broken=('keyboard "A"\n  controller stick, :\n',),
        ),
        Lesson(
            message="no controller follows `{found}`",
            help=_CONTROLLERS,
            broken=('keyboard "A"\n  controller stick,\n',),
        ),
    ),
)

MAKER = Statement(
    rule="maker",
    keyword="maker",
    block="keyboard",
    often="once",
    form='maker "Somebody"',
    lessons=(
        Lesson(
            message="`{found}` is not the maker's name in quotes",
            help='write the name in quotes, as in `maker "Somebody"`',
            broken=('keyboard "A"\n  maker Somebody\n', 'keyboard "A"\n  maker\n'),
        ),
    ),
)

USB = Statement(
    rule="usb",
    keyword="usb",
    block="keyboard",
    often="once",
    form="usb 1209:0001",
    lessons=(
        Lesson(
            message="`{found}` is not a pair of USB numbers",
            help="write vendor and product as four hexadecimal digits each, as in `usb 1209:0001`",
            broken=('keyboard "A"\n  usb 0x1209 0x0001\n', 'keyboard "A"\n  usb\n'),
        ),
    ),
)

BOOT_HOLD = Statement(
    rule="boot_hold",
    keyword="boot-loader",
    called="boot-loader hold",
    block="keyboard",
    often="once",
    form="boot-loader hold Esc Backspace",
    lessons=(
        Lesson(
            message="`{found}` is not a way into the boot loader",
            help="write `boot-loader hold` and the keys, or `boot-loader double reset`",
            broken=('keyboard "A"\n  boot-loader Esc Q\n', 'keyboard "A"\n  boot-loader\n'),
        ),
        Lesson(
            message="`{found}` is not the name of a key",
            help=_HOLD,
            broken=('keyboard "A"\n  boot-loader hold = Q\n',),
        ),
        Lesson(
            message="no key follows `{found}`",
            help=_HOLD,
            broken=('keyboard "A"\n  boot-loader hold\n',),
        ),
    ),
)

DOUBLE_RESET = Statement(
    rule="double_reset",
    keyword="boot-loader",
    called="boot-loader double reset",
    block="keyboard",
    often="once",
    form="boot-loader double reset",
    lessons=(
        Lesson(
            message="`{found}` is not a way into the boot loader",
            help="pressing reset twice is written `boot-loader double reset`",
            broken=(
                'keyboard "A"\n  boot-loader double\n',
                'keyboard "A"\n  boot-loader double press\n',
                'keyboard "A"\n  boot-loader double reset twice\n',
            ),
        ),
    ),
)

ALLOW = Statement(
    rule="allow",
    keyword="allow",
    block="keyboard",
    often="any",
    form="allow pin-with-second-duty PE2",
    lessons=(
        Lesson(
            message="no finding's name follows `{found}`",
            help="write the word in the brackets of a warning, as in `allow pin-with-second-duty`",
            broken=('keyboard "A"\n  allow\n',),
        ),
    ),
)

KEYBOARD = Block(
    keyword="keyboard",
    often="once",
    form='keyboard "Heron 12"',
    lessons=(
        Lesson(
            message="expected the keyboard's name in quotes, found `{found}`",
            help=_NAME,
            broken=("keyboard Heron\n",),
        ),
        Lesson(message="the keyboard has no name", help=_NAME, broken=("keyboard\n",)),
        Lesson(
            message="`{found}` follows the keyboard's name, which ends the line",
            help="put each setting on an indented line of its own",
            broken=('keyboard "Heron" Twelve\n',),
        ),
    ),
    statements=(
        CONTROLLER,
        DEBOUNCE,
        MAKER,
        USB,
        BOOT_HOLD,
        DOUBLE_RESET,
        ONCE_LASTS,
        REMEMBER,
        ALLOW,
    ),
)
