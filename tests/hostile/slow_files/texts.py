"""Slow files: controllers, and texts that do not end."""

from __future__ import annotations

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.source.limits import LIMITS
from tests.hostile.slow_files.shapes import (
    WIRES,
    again,
    count_of,
    filled,
    keys_of,
    letters_of,
    matrix_of,
    plate_of,
    rows_of,
    shape,
)


@shape
def many_controllers(size: float) -> str:
    boards = [name for name in builtin_names() if builtin_profile(name).port]
    tail = "\n" + "\n".join([*plate_of([["A", "B"]])])
    return filled(
        'keyboard "Pad"', again(*(f"  controller {', '.join(boards)}" for _ in (1,))), size, tail
    )


@shape
def every_controller(size: float) -> str:
    keys = keys_of(count_of(size))
    rows = rows_of(keys)
    said = f'keyboard "Pad"\n  controller {", ".join(builtin_names()[: LIMITS.controllers])}\n'
    return "\n".join(
        [said, *plate_of(rows), *matrix_of(rows, "without diode k0 to k3"), *letters_of(keys)]
    )


@shape
def one_controller_many_times(size: float) -> str:
    more = "\n".join([*plate_of([["A", "B"]]), *matrix_of([["A", "B"]])])
    names = ", ".join(["rp2040"] * int(size * 100_000))
    return f'keyboard "Pad"\n  controller {names}\n\n{more}'


@shape
def files_as_controllers(size: float) -> str:
    names = ", ".join(f'"c{n}.json"' for n in range(int(size * 60_000)))
    return f'keyboard "Pad"\n  controller {names}\n\n' + "\n".join(plate_of([["A", "B"]]))


@shape
def pins_without_an_end(size: float) -> str:
    pins = ", ".join(f"PB{n % 8}" for n in range(int(size * 3_000)))
    lines = [f"  row r{n} on {pins} A" for n in range(WIRES)]
    return "\n".join(
        ['keyboard "Pad"\n  controller atmega32u4\n', *plate_of([["A"]]), "wiring", *lines]
    )


@shape
def a_long_comment(size: float) -> str:
    return filled("plate\n  line A B", ["# " + 'ä#"' * int(size * 240_000)], size)


@shape
def many_comments(size: float) -> str:
    return filled("plate\n  line A B", again('# "', "  #", "#\t#", "", "   "), size)


@shape
def a_long_line_of_mistakes(size: float) -> str:
    """Each finding quotes its line."""
    head = "plate\n  line A B\n\nwiring\n  row r0 A"
    return head + "".join(f" q{n}" for n in range(int(size * 110_000)))


@shape
def a_long_line_of_wide_letters(size: float) -> str:
    head = "plate\n  line A B\n\nwiring\n  row r0 A"
    return head + "".join(f" 日本{n}" for n in range(int(size * 75_000)))


@shape
def statements_that_do_not_read(size: float) -> str:
    return filled("plate\n  line A B\n\nwiring", again("  rwo r0 A B", "  row", "  column ="), size)


@shape
def blocks_that_do_not_read(size: float) -> str:
    return filled("plate\n  line A B\n", again("plat", "keybord", "  lyer"), size)


@shape
def one_word_without_an_end(size: float) -> str:
    return "plate\n  line " + "A" * int(size * 900_000)


@shape
def a_text_without_an_end(size: float) -> str:
    return 'plate\n  line A\n\nkeyboard "' + '\\"' * int(size * 400_000)


@shape
def symbols_without_an_end(size: float) -> str:
    return "plate\n  line " + "-[];'`./" * int(size * 110_000)


@shape
def digits_without_an_end(size: float) -> str:
    return "plate\n  line A:" + "1" * int(size * 900_000) + "\n"


@shape
def many_wires(size: float) -> str:
    lines = (f"  row r{n} on PB0 A to C" for n in range(10**6))
    return filled(
        'keyboard "Pad"\n controller atmega32u4\n\nplate\n  line A B C\n\nwiring', lines, size
    )


@shape
def needs_without_an_end(size: float) -> str:
    needs = " and ".join(f"l{n % 30}" for n in range(int(size * 110_000)))
    return f"plate\n  line A\n\nlayer base\n  A = B\n\nlayer x while {needs} are on\n  A = 1\n"


@shape
def modifiers_without_an_end(size: float) -> str:
    cell = "+".join(["Ctrl"] * int(size * 180_000))
    return f"plate\n  line A\n\nlayer base\n  A = {cell}+B\n"
