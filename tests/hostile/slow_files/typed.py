"""Slow files: letters, texts, and what keys do in turn."""

from __future__ import annotations

from itertools import cycle, islice

from matrixgen.source.limits import LIMITS
from tests.hostile.slow_files.shapes import count_of, filled, keys_of, plate_of, rows_of, shape

HEAD = 'keyboard "Pad"\n  computer de\n'
CJK, HANGUL = 0x4E00, 0xAC00


def cells(said: list[str], computer: str = HEAD) -> str:
    keys = keys_of(len(said))
    lines = [f"  {key} = {one}" for key, one in zip(keys, said, strict=True)]
    return "\n".join([computer, *plate_of(rows_of(keys)), "layer base", *lines, ""])


def texts(size: float, letters: str) -> list[str]:
    """Texts as long as they may be, as many as a file has room for, at most one for each key."""
    room = int(LIMITS.file_bytes * size * 0.95) // (len(letters.encode()) + 20)
    return [f'type "{letters}"'] * min(room, count_of(size))


@shape
def texts_as_long_as_may_be(size: float) -> str:
    return cells(
        [f'type "{chr(97 + n % 26) * LIMITS.text_letters}"' for n in range(int(200 * size))]
    )


@shape
def texts_of_letters_that_are_not_there(size: float) -> str:
    return cells(texts(size, "".join(chr(CJK + n) for n in range(LIMITS.text_letters))))


@shape
def texts_of_letters_that_one_system_has(size: float) -> str:
    return cells(texts(size, "".join(islice(cycle("ŧøŋđħĸłſ…“”"), LIMITS.text_letters))))


@shape
def texts_of_accents_apart(size: float) -> str:
    marks = "".join(islice(cycle("\u0301\u0323\u0327"), LIMITS.text_letters - 1))
    return cells(texts(size, "a" + marks))


@shape
def texts_of_letters_with_accents_apart(size: float) -> str:
    return cells(texts(size, "u\u0308" * (LIMITS.text_letters // 2)))


@shape
def texts_with_backslashes(size: float) -> str:
    return cells(texts(size, "\\\\" * LIMITS.text_letters))


@shape
def letters_that_are_not_there(size: float) -> str:
    return cells([chr(HANGUL + n) for n in range(int(500 * size))])


@shape
def letters_that_one_system_has(size: float) -> str:
    return cells([*islice(cycle("ŧøŋđħĸłſ…"), int(500 * size))])


@shape
def letters_on_a_layout_that_is_not_there(size: float) -> str:
    many = [chr(HANGUL + n) for n in range(count_of(size))]
    return cells(many, HEAD.replace("de", f"german-{'x' * 200}"))


@shape
def a_cell_of_many_accents(size: float) -> str:
    marks = "".join(islice(cycle("\u0301\u0323\u0327"), int(size * LIMITS.file_bytes) // 2 - 200))
    return cells([f"a{marks}"])


@shape
def steps_without_an_end(size: float) -> str:
    steps = ", then ".join(["A"] * int(size * LIMITS.words / 3.1))
    return cells([steps])


@shape
def waits_without_an_end(size: float) -> str:
    steps = ", then ".join(["A", *["wait 2550 ms"] * int(size * LIMITS.words / 5.1)])
    return cells([steps])


@shape
def texts_without_quotes(size: float) -> str:
    """Each of the lines that cannot be read is looked at for slips."""
    keys = keys_of(count_of(size))
    head = "\n".join([HEAD, *plate_of(rows_of(keys)), "layer base"])
    long = "Hello then " * 80
    return filled(head, (f"  {key} = type {long}" for key in keys), size)


@shape
def blanks_before_then(size: float) -> str:
    blanks = " " * int(size * LIMITS.file_bytes * 0.9)
    return cells([f"A{blanks}then B"])


@shape
def quotes_and_commas(size: float) -> str:
    return cells([f"type 'x{', then x' * int(size * LIMITS.words / 4)}"])


@shape
def one_text_in_every_cell(size: float) -> str:
    keys = keys_of(count_of(size))
    head = [HEAD, *plate_of(rows_of(keys)), "actions", f'  long = type "{"ab" * 500}"', ""]
    layers = ["base", *(f"n{n}" for n in range(LIMITS.layers - 1))]
    made = [line for name in layers for line in (f"layer {name}", *(f"  {k} = long" for k in keys))]
    return filled("\n".join(head), made, size)
