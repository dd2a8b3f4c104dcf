"""The block `wiring`: what is soldered."""

from __future__ import annotations

from matrixgen.source.statements.cures import with_unit, without_commas
from matrixgen.source.statements.statement import Block, Lesson, Statement

_DRIVE = "write `drive columns, sense rows` or `drive rows, sense columns`"
_BAND = "write where the band points, as in `diodes 1N4148, band toward columns`"
_SETTLE = "write a number and its unit, as in `settle 4 us`"
_WIRE = "write its name, its pin and its keys, as in `row r0 on PD0 Q W E`"
_EXCEPTION = "name the keys, as in `without diode Esc Q` or `reversed Tab`"
_PIN = "write the pin as it is printed on the board, as in `row r0 on PD0 Q W E`"
_BLANKS = "put spaces between the names of keys; the key for a comma is called `Comma`"
_RUN = "a run of keys in the order of the plate is written `Tab to Enter`"

DRIVE = Statement(
    rule="drive",
    keyword="drive",
    block="wiring",
    often="once",
    form="drive columns, sense rows",
    lessons=(
        Lesson(
            message="expected `rows` or `columns`, found `{found}`",
            help=_DRIVE,
            broken=(
                "wiring\n  drive\n",
                "wiring\n  drive column, sense rows\n",
                "wiring\n  drive rows, sense\n",
            ),
        ),
        Lesson(
            message="expected `, sense`, found `{found}`",
            help=_DRIVE,
            broken=("wiring\n  drive columns sense rows\n", "wiring\n  drive columns, rows\n"),
        ),
        Lesson(
            message="`{found}` is driven, but nothing is sensed",
            help=_DRIVE,
            broken=("wiring\n  drive columns\n",),
        ),
    ),
)

DIODES = Statement(
    rule="diodes",
    keyword="diodes",
    block="wiring",
    often="once",
    form="diodes 1N4148, band toward columns",
    lessons=(
        Lesson(
            message="expected the diode's part number, found `{found}`",
            help="write the part and where its band points, "
            "as in `diodes 1N4148, band toward columns`",
            broken=("wiring\n  diodes\n", "wiring\n  diodes , band\n"),
        ),
        Lesson(
            message="after the diode's part number comes `, band toward rows` or `columns`, "
            "not `{found}`",
            help=_BAND,
            broken=(
                "wiring\n  diodes 1N4148 band toward rows\n",
                "wiring\n  diodes 1N4148, toward rows\n",
                "wiring\n  diodes 1N4148, band rows\n",
                "wiring\n  diodes 1N4148, band toward row\n",
            ),
        ),
        Lesson(
            message="the line ends after `{found}` and does not say where the diodes' band points",
            help=_BAND,
            broken=("wiring\n  diodes 1N4148\n", "wiring\n  diodes 1N4148,\n"),
        ),
    ),
)

WITHOUT = Statement(
    rule="without",
    keyword="without",
    block="wiring",
    often="any",
    form="without diode Esc Q",
    lessons=(
        Lesson(
            message="after `without` comes `diode` and the names of keys, not `{found}`",
            help="write `without diode` and the keys that have none, as in `without diode Esc Q`",
            broken=("wiring\n  without Esc\n",),
        ),
        Lesson(
            message="no key follows `{found}`",
            help=_EXCEPTION,
            broken=("wiring\n  without diode\n", "wiring\n  reversed\n"),
        ),
    ),
)

REVERSED = Statement(
    rule="reversed",
    keyword="reversed",
    block="wiring",
    often="any",
    form="reversed Tab",
)

SETTLE = Statement(
    rule="settle",
    keyword="settle",
    block="wiring",
    often="once",
    form="settle 4 us",
    lessons=(
        Lesson(
            message="`{found}` is not a settling time",
            help=_SETTLE,
            broken=("wiring\n  settle\n", "wiring\n  settle long\n"),
        ),
        Lesson(
            message="the settling time has no unit `us` after `{found}`",
            help=_SETTLE,
            broken=("wiring\n  settle 4\n",),
            cure=with_unit("us"),
        ),
        Lesson(
            message="expected the unit `us`, found `{found}`",
            help="write the time in microseconds, as in `settle 4 us`",
            broken=("wiring\n  settle 4 ms\n",),
        ),
    ),
)

ROW = Statement(
    rule="row",
    keyword="row",
    block="wiring",
    often="any",
    form="row r0 on PD0 wire yellow Q W E",
    lessons=(
        Lesson(
            message="expected the wire's name, found `{found}`",
            help=_WIRE,
            broken=("wiring\n  row /\n", "wiring\n  column /\n"),
        ),
        Lesson(
            message="no name of a wire follows `{found}`",
            help=_WIRE,
            broken=("wiring\n  row\n", "wiring\n  column\n"),
        ),
        Lesson(
            message="expected the name of a pin, found `{found}`",
            help=_PIN,
            broken=(
                "wiring\n  row r0 on = Q\n",
                "wiring\n  row r0 on\n",
                "wiring\n  row r0 on PD0, = Q\n",
            ),
        ),
        Lesson(
            message="no pin follows `{found}`",
            help="put a comma between the pins on several controllers, "
            "as in `row r0 on PD0, GP2 Q W E`",
            broken=("wiring\n  row r0 on PD0,\n",),
        ),
        Lesson(
            message="expected the wire's colour, found `{found}`",
            help="write a colour in full, as in `row r0 on PD0 wire yellow Q W E`",
            broken=("wiring\n  row r0 on PD0 wire =\n", "wiring\n  row r0 on PD0 wire\n"),
        ),
        Lesson(
            message="`{found}` ends no run of keys",
            help=_RUN,
            broken=("wiring\n  row r0 Q to\n", "wiring\n  row r0 Q to =\n"),
        ),
        Lesson(
            message="`{found}` is not the name of a key",
            help="put spaces between the names of keys; a wire lists them in soldering order",
            broken=tuple(
                f"wiring\n  {axis} w{end} = Q\n"
                for axis in ("row", "column")
                for end in ("", " on PD0", " on PD0, PD1", " on PD0 wire red", " wire red", " Q")
            ),
        ),
        Lesson(
            message="`{found}` does not belong between the names of keys",
            help=_BLANKS,
            broken=(
                *(
                    f"wiring\n  {axis} w{end}{comma}W\n"
                    for axis in ("row", "column")
                    for end in ("", " wire red", " on PD0 wire red", " Q", " Q to W")
                    for comma in (", ", ",")
                ),
                "wiring\n  reversed Q, W\n",
                "wiring\n  without diode Q W,E\n",
                'keyboard "A"\n  boot-loader hold Esc, Q\n',
                'keyboard "A"\n  boot-loader hold Esc Q, A\n',
                'keyboard "A"\n  allow ghost-possible Esc, Q\n',
            ),
            cure=without_commas,
        ),
    ),
)

COLUMN = Statement(
    rule="column",
    keyword="column",
    block="wiring",
    often="any",
    form="column c0 on PB0 wire blue Q A Z",
)

WIRING = Block(
    keyword="wiring",
    often="once",
    form="wiring",
    lessons=(
        Lesson(
            message="`{found}` follows `wiring`, which must be alone on its line",
            help="put each wire on an indented line of its own, as in `row r0 on PD0 Q W E`",
            broken=("wiring r0\n",),
        ),
    ),
    statements=(DRIVE, DIODES, WITHOUT, REVERSED, SETTLE, ROW, COLUMN),
)
