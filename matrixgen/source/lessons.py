"""Syntax taught by example: for each label what to say, and snippets that break just so.

The snippets are not only examples. The parser reads them, and where its state is the same as in a
user's line, that lesson is the one to give (`syntax.py`); the tests read them too. The first lesson
for a state is given for whatever word was found there, unless another lesson's snippet has that
kind of word. Where no lesson has that state, the help is what such a line looks like.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Lesson:
    """What to say of a kind of broken line. `{found}` in the message is the word that broke it."""

    message: str
    help: str | None
    broken: tuple[str, ...]


LESSONS: dict[str, Lesson] = {
    # -- keyboard ----------------------------------------------------------------------------------
    "keyboard-without-name": Lesson(
        "`{found}` stands where the keyboard's name in quotes should be",
        'write the name in quotes, as in `keyboard "Heron 12"`',
        ("keyboard Heron\n",),
    ),
    "keyboard-ends-early": Lesson(
        "the keyboard has no name",
        'write the name in quotes, as in `keyboard "Heron 12"`',
        ("keyboard\n",),
    ),
    "after-keyboard": Lesson(
        "`{found}` follows the keyboard's name, which ends the line",
        "put each setting on an indented line of its own",
        ('keyboard "Heron" Twelve\n',),
    ),
    "controller": Lesson(
        "`{found}` is followed by no controller",
        'write a name, or the path of a profile in quotes, as in `controller "mine.json"`',
        ('keyboard "A"\n  controller\n',),
    ),
    "controller-name": Lesson(
        "`{found}` is no controller's name",
        'write a path of a profile in quotes, as in `controller "mine.json"`',
        ('keyboard "A"\n  controller ./mine.json\n',),
    ),
    "after-controller": Lesson(
        "`{found}` follows the controller, which ends the line",
        "put each setting on a line of its own, and a comma between two controllers",
        (
            'keyboard "A"\n  controller stick 5\n',
            'keyboard "A"\n  controller stick, other 5\n',
        ),
    ),
    "next-controller": Lesson(
        "`{found}` is no controller's name",
        "write one after each comma, as in `controller stick-32u4, rp2040-40pin`",
        ('keyboard "A"\n  controller stick, :\n',),
    ),
    "controllers-end-early": Lesson(
        "no controller follows `{found}`",
        "write one after each comma, as in `controller stick-32u4, rp2040-40pin`",
        ('keyboard "A"\n  controller stick,\n',),
    ),
    "debounce": Lesson(
        "`{found}` stands where the debounce time should be",
        "write a number and its unit, as in `debounce 5 ms`",
        ('keyboard "A"\n  debounce fast\n', 'keyboard "A"\n  debounce\n'),
    ),
    "debounce-unit": Lesson(
        "the debounce time `{found}` has no unit `ms`",
        "write a number and its unit, as in `debounce 5 ms`",
        ('keyboard "A"\n  debounce 5\n',),
    ),
    "debounce-other-unit": Lesson(
        "`{found}` stands where the unit `ms` should be",
        "write the time in milliseconds, as in `debounce 5 ms`",
        ('keyboard "A"\n  debounce 5 seconds\n',),
    ),
    "maker": Lesson(
        "`{found}` is not the maker's name in quotes",
        'write the name in quotes, as in `maker "Somebody"`',
        ('keyboard "A"\n  maker Somebody\n', 'keyboard "A"\n  maker\n'),
    ),
    "usb": Lesson(
        "`{found}` is no pair of USB numbers",
        "write vendor and product as four hexadecimal digits each, as in `usb 1209:0001`",
        ('keyboard "A"\n  usb 0x1209 0x0001\n', 'keyboard "A"\n  usb\n'),
    ),
    "boot-loader": Lesson(
        "`{found}` is no way into the boot loader",
        "write `boot-loader hold` and the keys, or `boot-loader double reset`",
        ('keyboard "A"\n  boot-loader Esc Q\n', 'keyboard "A"\n  boot-loader\n'),
    ),
    "boot-loader-keys": Lesson(
        "`{found}` is no name of a key",
        "name the keys to be held down together, as in `boot-loader hold Esc Backspace`",
        ('keyboard "A"\n  boot-loader hold = Q\n',),
    ),
    "boot-loader-no-keys": Lesson(
        "`{found}` is followed by no key",
        "name the keys to be held down together, as in `boot-loader hold Esc Backspace`",
        ('keyboard "A"\n  boot-loader hold\n',),
    ),
    "double-reset": Lesson(
        "`{found}` is no way into the boot loader",
        "pressing reset twice is written `boot-loader double reset`",
        (
            'keyboard "A"\n  boot-loader double\n',
            'keyboard "A"\n  boot-loader double press\n',
            'keyboard "A"\n  boot-loader double reset twice\n',
        ),
    ),
    "allow": Lesson(
        "`{found}` is followed by no finding's name",
        "write the word in the brackets of a warning, as in `allow pin-with-second-duty`",
        ('keyboard "A"\n  allow\n',),
    ),
    # -- plate -------------------------------------------------------------------------------------
    "after-plate": Lesson(
        "`{found}` follows `plate`, which stands alone on its line",
        "put each row of switches on an indented line of its own, as in `line A B C`",
        ("plate A B\n",),
    ),
    "line-without-keys": Lesson(
        "`{found}` has no key",
        "name the line's keys from left to right, as in `line Q W E`",
        ("plate\n  line\n",),
    ),
    "line-key": Lesson(
        "`{found}` is no name of a key",
        "letters, digits, `-` and `_` make a name, and a blank stands between two names",
        ("plate\n  line Q/W E\n", "plate\n  line Q/W\n", "plate\n  line in 0.25 Q/W\n"),
    ),
    "line-number": Lesson(
        "`{found}` has no key before it",
        "a width follows its key's name, as in `Enter:1.5`; a gap is written `~0.5`",
        ("plate\n  line :1.5 Q\n",),
    ),
    "line-rest": Lesson(
        "`{found}` is no name of a key, no width and no gap",
        "keys are written `Q`, `Enter:1.5`, `Plus:1x2` (width by height); a gap is written `~0.5`",
        (
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
    "offset": Lesson(
        "`{found}` is no distance",
        "write it in key units, as in `line in 0.25 Q W` or `line down 0.5 Q W`",
        ("plate\n  line in 0.25x A\n", "plate\n  line down 1.5u A\n"),
    ),
    "cluster-name": Lesson(
        "`{found}` stands where the cluster's name should be",
        "write its name and its corner, as in `cluster thumb at 3, 4.5`",
        ("plate\n  cluster\n", "plate\n  cluster 'x\n"),
    ),
    "cluster-at": Lesson(
        "after the cluster's name comes `at` and its place, not `{found}`",
        "write its name and its corner, as in `cluster thumb at 3, 4.5 turned 15`",
        ("plate\n  cluster thumb\n", "plate\n  cluster thumb 3, 4.5\n"),
    ),
    "cluster-place": Lesson(
        "`{found}` is not the place of a cluster",
        "write two numbers in key units with a comma between, as in `cluster thumb at 3, 4.5`",
        (
            "plate\n  cluster thumb at x\n",
            "plate\n  cluster thumb at 3 4.5\n",
            "plate\n  cluster thumb at 3,\n",
        ),
    ),
    "cluster-turned": Lesson(
        "`{found}` stands where `turned` and an angle may be",
        "write degrees clockwise, as in `cluster thumb at 3, 4.5 turned 15`",
        ("plate\n  cluster thumb at 3, 4.5 15\n", "plate\n  cluster thumb at 3, 4.5 turned left\n"),
    ),
    # -- wiring ------------------------------------------------------------------------------------
    "after-wiring": Lesson(
        "`{found}` follows `wiring`, which stands alone on its line",
        "put each wire on an indented line of its own, as in `row r0 on PD0 Q W E`",
        ("wiring r0\n",),
    ),
    "drive": Lesson(
        "`{found}` stands where `rows` or `columns` should be",
        "write `drive columns, sense rows` or `drive rows, sense columns`",
        (
            "wiring\n  drive\n",
            "wiring\n  drive column, sense rows\n",
            "wiring\n  drive rows, sense\n",
        ),
    ),
    "drive-comma": Lesson(
        "`{found}` stands where `, sense` should be",
        "write `drive columns, sense rows` or `drive rows, sense columns`",
        ("wiring\n  drive columns sense rows\n", "wiring\n  drive columns, rows\n"),
    ),
    "drive-ends-early": Lesson(
        "`{found}` is driven, but nothing is sensed",
        "write `drive columns, sense rows` or `drive rows, sense columns`",
        ("wiring\n  drive columns\n",),
    ),
    "diodes": Lesson(
        "`{found}` stands where the diode's part number should be",
        "write the part and where its band points, as in `diodes 1N4148, band toward columns`",
        ("wiring\n  diodes\n", "wiring\n  diodes , band\n"),
    ),
    "diodes-band": Lesson(
        "after the diode's part number comes `, band toward rows` or `columns`, not `{found}`",
        "write where the band points, as in `diodes 1N4148, band toward columns`",
        (
            "wiring\n  diodes 1N4148 band toward rows\n",
            "wiring\n  diodes 1N4148, toward rows\n",
            "wiring\n  diodes 1N4148, band rows\n",
            "wiring\n  diodes 1N4148, band toward row\n",
        ),
    ),
    "diodes-end-early": Lesson(
        "the line ends after `{found}` and does not say where the diodes' band points",
        "write where the band points, as in `diodes 1N4148, band toward columns`",
        ("wiring\n  diodes 1N4148\n", "wiring\n  diodes 1N4148,\n"),
    ),
    "without-diode": Lesson(
        "after `without` comes `diode` and the names of keys, not `{found}`",
        "write `without diode` and the keys that have none, as in `without diode Esc Q`",
        ("wiring\n  without Esc\n",),
    ),
    "exception-without-keys": Lesson(
        "`{found}` is followed by no key",
        "name the keys, as in `without diode Esc Q` or `reversed Tab`",
        ("wiring\n  without diode\n", "wiring\n  reversed\n"),
    ),
    "settle": Lesson(
        "`{found}` is no settling time",
        "write a number and its unit, as in `settle 4 us`",
        ("wiring\n  settle\n", "wiring\n  settle long\n"),
    ),
    "settle-unit": Lesson(
        "the settling time has no unit `us` after `{found}`",
        "write a number and its unit, as in `settle 4 us`",
        ("wiring\n  settle 4\n",),
    ),
    "settle-other-unit": Lesson(
        "`{found}` stands where the unit `us` should be",
        "write the time in microseconds, as in `settle 4 us`",
        ("wiring\n  settle 4 ms\n",),
    ),
    "wire-name": Lesson(
        "`{found}` stands where the wire's name should be",
        "write its name, its pin and its keys, as in `row r0 on PD0 Q W E`",
        ("wiring\n  row /\n", "wiring\n  column /\n"),
    ),
    "wire-ends-early": Lesson(
        "`{found}` is followed by no name of a wire",
        "write its name, its pin and its keys, as in `row r0 on PD0 Q W E`",
        ("wiring\n  row\n", "wiring\n  column\n"),
    ),
    "pin": Lesson(
        "`{found}` stands where the name of a pin should be",
        "write the pin as it is printed on the board, as in `row r0 on PD0 Q W E`",
        (
            "wiring\n  row r0 on = Q\n",
            "wiring\n  row r0 on\n",
            "wiring\n  row r0 on PD0, = Q\n",
        ),
    ),
    "pins-end-early": Lesson(
        "no pin follows `{found}`",
        "a comma stands between the pins on several controllers, as in `row r0 on PD0, GP2 Q W E`",
        ("wiring\n  row r0 on PD0,\n",),
    ),
    "wire-colour": Lesson(
        "`{found}` stands where the wire's colour should be",
        "write a colour in full, as in `row r0 on PD0 wire yellow Q W E`",
        ("wiring\n  row r0 on PD0 wire =\n", "wiring\n  row r0 on PD0 wire\n"),
    ),
    "wire-keys": Lesson(
        "`{found}` is no name of a key",
        "blanks stand between names of keys; a wire lists them in soldering order",
        (
            "wiring\n  row r0 on PD0 Q, W\n",
            "wiring\n  row r0 = Q\n",
            "wiring\n  row r0 on PD0 = Q\n",
            "wiring\n  row r0 on PD0, PD1 = Q\n",
            "wiring\n  row r0 on PD0 wire red, Q\n",
            "wiring\n  row r0 Q, W\n",
            "wiring\n  row r0 Q W, E\n",
            "wiring\n  row r0 on PD0 Q W, E\n",
            "wiring\n  row r0 on PD0 wire red Q W, E\n",
            "wiring\n  row r0 wire red, Q\n",
            "wiring\n  row r0 wire red Q, W\n",
            "wiring\n  column c0 Q W, E\n",
            "wiring\n  column c0 on PD0 Q, W\n",
            "wiring\n  column c0 on PD0 Q W, E\n",
            "wiring\n  column c0 on PD0 wire red Q, W\n",
            "wiring\n  column c0 wire red, Q\n",
            "wiring\n  column c0 wire red Q, W\n",
            "wiring\n  without diode Q W, E\n",
            "wiring\n  reversed Q W, E\n",
            "wiring\n  column c0, Q\n",
            "wiring\n  column c0 on PD0 = Q\n",
            "wiring\n  column c0 on PD0, PD1 = Q\n",
            "wiring\n  column c0 on PD0 wire red, Q\n",
            "wiring\n  without diode Q, W\n",
            "wiring\n  reversed Q, W\n",
            'keyboard "A"\n  boot-loader hold Esc, Q\n',
            'keyboard "A"\n  boot-loader hold Esc Q, A\n',
        ),
    ),
    # -- actions -----------------------------------------------------------------------------------
    "after-actions": Lesson(
        "`{found}` follows `actions`, which stands alone on its line",
        "put each action on an indented line of its own, as in `copy = Ctrl+C`",
        ("actions copy\n",),
    ),
    "action-name": Lesson(
        "`{found}` is no name for an action",
        "letters, digits, `-` and `_` make a name, as in `copy = Ctrl+C`",
        ("actions\n  [ = Ctrl+C\n", "actions\n  = Ctrl+C\n"),
    ),
    "action-equals": Lesson(
        "`{found}` stands where `=` should be",
        "write a name, `=` and what it does, as in `copy = Ctrl+C`",
        ("actions\n  copy Ctrl+C\n",),
    ),
    "action-ends-early": Lesson(
        "the action ends after `{found}`",
        "write a name, `=` and what it does, as in `copy = Ctrl+C`",
        ("actions\n  copy\n", "actions\n  copy =\n"),
    ),
    "action-phrase": Lesson(
        "`{found}` is nothing that a key can do",
        "write a key, `hold layer NAME`, `latch layer NAME`, `start boot loader` or `nothing`",
        ("actions\n  copy = :\n",),
    ),
    "after-action": Lesson(
        "`{found}` follows the action, which ends the line",
        "write one action a line; modifiers and key are one word, as in `Ctrl+C`",
        (
            "actions\n  copy = Ctrl + C\n",
            "actions\n  copy = nothing more\n",
            "actions\n  more = hold layer a b\n",
            "actions\n  more = latch layer a b\n",
            "actions\n  update = start boot loader now\n",
        ),
    ),
    "start": Lesson(
        "`{found}` does not start the boot loader",
        "write `start boot loader`, as in `update = start boot loader`",
        (
            "actions\n  update = start\n",
            "actions\n  update = start loader\n",
            "actions\n  update = start boot\n",
            "actions\n  update = start boot-loader\n",
            "actions\n  update = start boot loaders\n",
        ),
    ),
    "hold-layer": Lesson(
        "`{found}` is not followed by the word `layer`",
        "write `hold layer NAME` or `latch layer NAME`",
        ("actions\n  more = hold\n", "actions\n  more = latch\n"),
    ),
    "hold-what": Lesson(
        "`{found}` stands where the word `layer` should be",
        "write `hold layer NAME` or `latch layer NAME`",
        ("actions\n  more = hold symbols\n", "actions\n  more = latch symbols\n"),
    ),
    "hold-which": Lesson(
        "`{found}` names no layer",
        "write `hold layer NAME` or `latch layer NAME`",
        ("actions\n  more = hold layer\n", "actions\n  more = latch layer\n"),
    ),
    # -- layers ------------------------------------------------------------------------------------
    "layer-name": Lesson(
        "`{found}` is followed by no name of a layer",
        "give the layer a name, as in `layer numbers`",
        ("layer\n",),
    ),
    "layer-odd-name": Lesson(
        "`{found}` is no name for a layer",
        "letters, digits, `-` and `_` make a name, as in `layer numbers`",
        ("layer [\n", "layer 'numbers'\n"),
    ),
    "after-layer": Lesson(
        "`{found}` follows the layer's name, which ends the line",
        "put the layer's cells on indented lines",
        ("layer numbers on\n",),
    ),
    "cell": Lesson(
        "`{found}` is no cell",
        "a cell is one word: a key (`Ctrl+C`), an action's name, or `~` in a picture",
        (
            "layer a\n  A = (B)\n",
            "layer a\n  A B (C)\n",
            "layer a\n  ~ ~ (C)\n",
            "layer a\n  ~ (B)\n",
            "layer a\n  A (B)\n",
            "layer a\n  A = B (C)\n",
            "layer a\n  Ctrl+ C\n",
        ),
    ),
    "cell-missing": Lesson(
        "nothing follows `{found}` for the key to do",
        "write `KEY = CELL`, as in `Q = 1`",
        ("layer a\n  A =\n", "layer a\n  A = B C\n"),
    ),
    "see-through-in-list": Lesson(
        "`~` is no cell of a list",
        "leave the key out of the list, and it keeps the action of the layer below",
        ("layer a\n  A = ~\n",),
    ),
    "list-and-cells": Lesson(
        "`{found}` mixes a list's `KEY = CELL` and a picture's cells in one line",
        "write `KEY = CELL` for the keys that change, or else one cell for every key",
        (
            "layer a\n  A = B C D\n",
            "layer a\n  A = B ~\n",
            "layer a\n  A B = C\n",
            "layer a\n  ~ B = C\n",
            "layer a\n  ~ = C\n",
        ),
    ),
    # -- whatever else -----------------------------------------------------------------------------
    "open-quote": Lesson(
        "the quote that starts here has no end on its line",
        'close it, as in `"Heron 12"`',
        (),
    ),
    "odd-blank": Lesson(
        "this character looks like a blank, but it is no space and no tab",
        "put a plain space in its place",
        (),
    ),
}

ENDS_EARLY = "the line ends too early after `{found}`"
DOES_NOT_FIT = "`{found}` does not fit here"

FORMS = {
    "keyboard": 'keyboard "Heron 12"',
    "controller": "controller stick-32u4",
    "debounce": "debounce 5 ms",
    "maker": 'maker "Somebody"',
    "usb": "usb 1209:0001",
    "boot-loader": "boot-loader hold Esc Backspace",
    "allow": "allow pin-with-second-duty",
    "plate": "plate",
    "line": "line in 0.25 down 0.5 Q Enter:1.5 ~0.5 Plus:1x2",
    "cluster": "cluster thumb at 3, 4.5 turned 15",
    "wiring": "wiring",
    "drive": "drive columns, sense rows",
    "diodes": "diodes 1N4148, band toward columns",
    "without": "without diode Esc Q",
    "reversed": "reversed Tab",
    "settle": "settle 4 us",
    "row": "row r0 on PD0 wire yellow Q W E",
    "column": "column c0 on PB0 wire blue Q A Z",
    "actions": "actions",
    "layer": "layer numbers",
}
"""What each kind of line looks like, by its first word: the help where no lesson fits."""
