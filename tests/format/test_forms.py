"""What the canonical form is, case by case: what was typed, and what it becomes."""

import pytest

from matrixgen.format import formatted as room
from matrixgen.format.formatted import formatted
from matrixgen.model import SourceText

LONG_KEYS = " ".join(f"Key-number-{n:02}" for n in range(10))

LONG_CELLS = [f"{key} = tap {key}, hold Ctrl+Shift" for key in "ABCD"]

FORMS = {
    "settings in columns": (
        'keyboard   "Pad"\n controller x ,y\n debounce 5ms\n boot-loader hold A B\n',
        'keyboard "Pad"\n  controller  x, y\n  debounce    5 ms\n  boot-loader hold A B\n',
    ),
    "wires in columns": (
        "wiring\n settle 4us\n row r10 on PD0,GP1 wire red A to D F\n column c1 B\n",
        "wiring\n"
        "  settle 4 us\n"
        "  row    r10         on PD0, GP1 wire red     A to D F\n"
        "  column c1                                   B\n",
    ),
    "wires without pins": (
        "wiring\n row r0   A\n column c10 B\n",
        "wiring\n  row    r0           A\n  column c10          B\n",
    ),
    "actions with their equals signs aligned": (
        "actions\n a=Ctrl+C\n longer =hold  layer x\n",
        "actions\n  a           = Ctrl+C\n  longer      = hold layer x\n",
    ),
    "settings with commas and units": (
        'keyboard "Pad"\n debounce 5ms ,press 2ms\n once lasts 900ms\n remember  base\n',
        'keyboard "Pad"\n  debounce 5 ms, press 2 ms\n  once     lasts 900 ms\n  remember base\n',
    ),
    "taps and holds": (
        "actions\n 180ms=once  Shift\n a=tap 180ms ,hold layer x,after 180ms , by press,roll 5ms\n",
        "actions\n"
        "  180ms       = once Shift\n"
        "  a           = tap 180ms, hold layer x, after 180 ms, by press, roll 5 ms\n",
    ),
    "taps and holds in a list": (
        "layer x\n A=tap B,hold C,after 60ms D = E\n  F = tap B ,hold C\n  and ,by press\n",
        "layer x\n  A = tap B, hold C, after 60 ms  D = E\n  F = tap B, hold C, by press\n",
    ),
    "a list's line that is too long": (
        f"layer x\n {' '.join(LONG_CELLS)}\n Z = 1\n Y = tap 1\n  and , hold 2 # y\n",
        f"layer x\n  {'  '.join(LONG_CELLS[:3])}\n    and {LONG_CELLS[3]}\n"
        "  Z = 1\n  Y = tap 1, hold 2  # y\n",
    ),
    "layers that are needed": (
        "layer  x  while a  and b\n and  are on\n A=B\n",
        "layer x while a and b are on\n  A = B\n",
    ),
    "plate of square columns": (
        "plate\n line Esc Q W\n line A Shift X\n",
        "plate\n  line Esc Q     W\n  line A   Shift X\n",
    ),
    "staggered plate: a wide key is in the column where it begins": (
        "plate\n line Esc Q W E\n line Tab:1.5 A S D\n line Shift:2.25 Z X\n",
        "plate\n  line Esc     Q  W E\n  line Tab:1.5 A  S D\n  line Shift:2.25 Z X\n",
    ),
    "gaps": (
        "plate\n line A B ~1 C\n line D E ~1.5 F\n line G ~2 H\n",
        "plate\n  line A B ~1   C\n  line D E ~1.5 F\n  line G ~2     H\n",
    ),
    "gaps that share a column follow the key before them": (
        "plate\n line A ~0.25 B\n line Long C\n",
        "plate\n  line A ~0.25 B\n  line Long    C\n",
    ),
    "offsets in a column of their own": (
        "plate\n line A B\n line in 1 C\n line down 0.5 in 0.5 1\n",
        "plate\n  line                  A B\n  line in 1               C\n"
        "  line down 0.5 in 0.5  1\n",
    ),
    "a size beside its key": ("plate\n line A :1.5x2 B\n", "plate\n  line A:1.5x2 B\n"),
    "clusters": (
        "plate\n line Longest B\n cluster t at 1 ,2 turned 5\n line C D\n line EE F\n",
        "plate\n  line Longest B\n  cluster t at 1, 2 turned 5\n    line C  D\n    line EE F\n",
    ),
    "holes and areas, their first words in a column and the numbers of a kind": (
        "plate\n line A\n hole at 1,0.5#x\n cluster t at 1, 2\n line C\n hole at 10.25 ,3\n"
        "#y\n keep  clear -1,2,  3,0.5\n line D\n keep clear 0,10,1,1 # z\n",
        "plate\n"
        "  line A\n"
        "  hole       at 1,     0.5      #x\n"
        "  cluster t at 1, 2\n"
        "    line C\n"
        "  hole       at 10.25, 3\n"
        "  #y\n"
        "  keep clear -1, 2,  3, 0.5\n"
        "    line D\n"
        "  keep clear 0,  10, 1, 1       # z\n",
    ),
    "holes alone": (
        "plate\n line A\n hole at 1\n and , 1\n",
        "plate\n  line A\n  hole at 1, 1\n",
    ),
    "a hole and an area with comments between": (
        "plate\n line A\n hole at # a\n and 1, 1\n keep clear#b\n and 1,2,3,4\n hole at 3,3\n",
        "plate\n"
        "  line A\n"
        "  hole at       # a\n"
        "    and 1, 1\n"
        "  keep clear    #b\n"
        "    and 1, 2, 3, 4\n"
        "  hole at 3, 3\n",
    ),
    "a hole opens no columns of its own": (
        "plate\n line Longest B\n hole at 3, 1\n line C D\n\nlayer x\n 1 2\n 3 4\n",
        "plate\n  line Longest B\n  hole at 3, 1\n  line C       D\n\nlayer x\n  1 2\n  3 4\n",
    ),
    "a picture in the plate's columns": (
        "plate\n line A ~2 B\n line C D E:2\n line in 1 F\n\nlayer x\n 1 2\n 3 copy 4\n 5\n",
        "plate\n  line       A ~2  B\n  line       C D E:2\n  line in 1    F\n\n"
        "layer x\n  1        2\n  3 copy 4\n    5\n",
    ),
    "a picture with too many cells, whose places are only counted": (
        "plate\n line A ~2 B\n\nlayer x\n 1 2 3\n",
        "plate\n  line A ~2  B\n\nlayer x\n  1 2 3\n",
    ),
    "a picture of many columns that is two lines high for each": (
        "plate\n line A B\n and C D\n line Long F\n and G H\n\n"
        "layer x\n 1 22\n and 3 4\n 5 6\n and 7 8\n",
        "plate\n  line A    B\n    and C D\n  line Long F\n    and G H\n\n"
        "layer x\n  1 22\n    and 3 4\n  5 6\n    and 7 8\n",
    ),
    "lists of as many cells, aligned where they follow each other": (
        "layer x\n A=1 Enter=latch layer y\n Back = 2 B=3\n C=4\n\n DDD=5\n # other\n E=6\n",
        "layer x\n  A    = 1  Enter = latch layer y\n  Back = 2  B     = 3\n  C = 4\n\n"
        "  DDD = 5\n  # other\n  E = 6\n",
    ),
    "comments at the ends of lines, a column for each block": (
        "layer x # one\n A = 1#two\n BBB = 2\n\nlayer y # three\n A = Space\n",
        "layer x         # one\n  A   = 1       #two\n  BBB = 2\n\nlayer y  # three\n  A = Space\n",
    ),
    "a comment behind a very long line moves no other": (
        f"plate\n line {LONG_KEYS} # a\n line A #b\n line A B # c\n",
        f"plate\n  line {LONG_KEYS}  # a\n  line A        #b\n  line A B      # c\n",
    ),
    "comments of their own, where they belong": (
        "# top\n\n#  file\nplate # p\n# in\n line A\n   # its own\n\n\n # too\n# next's\n\n"
        "layer x\n A = 1\n# end\n",
        "# top\n\n#  file\nplate  # p\n  # in\n  line A\n  # its own\n\n  # too\n\n# next's\n\n"
        "layer x\n  A = 1\n\n# end\n",
    ),
    "comments under a cluster": (
        "plate\n line A\n cluster t at 0, 0\n# over\n line B\n # last\n",
        "plate\n  line A\n  cluster t at 0, 0\n    # over\n    line B\n    # last\n",
    ),
    "empty lines": (
        "\n\nplate\n\n\n line A\n\n\n\n line B\nlayer x\n A = 1\n\n\n",
        "plate\n  line A\n\n  line B\n\nlayer x\n  A = 1\n",
    ),
    "joints that nothing needs": (
        "wiring\n row\n  and r0 on PD0 A\n   and B\n\n and C # all\n",
        "wiring\n  row r0          on PD0   A B C  # all\n",
    ),
    "joints with comments between": (
        "wiring\n row r0 on PD0 A # a\n\n # b\n and B\n column cc C\n",
        "wiring\n"
        "  row    r0          on PD0   A  # a\n"
        "    # b\n"
        "    and B\n"
        "  column cc                   C\n",
    ),
    "a comment before the words that stand in columns": (
        "wiring\n row # a\n and r0 on PD0 A\n column c0 on PD1 B\n",
        "wiring\n  row  # a\n    and r0 on PD0 A\n  column c0          on PD1   B\n",
    ),
    "a wire that is too long": (
        f"wiring\n row r0 on PD0 {LONG_KEYS}\n",
        f"wiring\n  row r0          on PD0   {LONG_KEYS[:69]}\n    and {LONG_KEYS[70:]}\n",
    ),
    "a comment behind a wire that is too long": (
        f"wiring\n row r0 on PD0 {LONG_KEYS} # far\n",
        f"wiring\n  row r0          on PD0   {LONG_KEYS[:69]}\n    and {LONG_KEYS[70:]}  # far\n",
    ),
    "a plate that would be too wide has no columns": (
        f"plate\n line {LONG_KEYS}\n line A B   C D E F G\n",
        f"plate\n  line {LONG_KEYS}\n  line A B C D E F G\n",
    ),
    "what is between quotes": (
        'keyboard "a  #b,c"\n maker   "=  x"\n',
        'keyboard "a  #b,c"\n  maker "=  x"\n',
    ),
    "nothing": ("\n \n\t\n", ""),
    "comments alone": ("\n  # a\n\n\n#b \n", "# a\n\n#b\n"),
}


def form_of(text):
    made = formatted(SourceText("x", text))
    assert made.findings == ()
    return made.text


@pytest.mark.parametrize(("typed", "form"), FORMS.values(), ids=FORMS)
def test_what_is_typed_becomes_its_form_and_stays_it(typed, form):
    assert form_of(typed) == form
    assert form_of(form) == form


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("last", ["", "\n", "\n\n \n"])
def test_the_mark_and_the_kind_of_line_end_stay(end, mark, last):
    text = f"{mark}plate\n line A{last}".replace("\n", end)
    assert form_of(text) == f"{mark}plate\n  line A\n".replace("\n", end)


def test_of_several_kinds_of_line_end_the_first_one_is_taken():
    assert form_of("plate\r\n  line A\n  line B\r") == "plate\r\n  line A\r\n  line B\r\n"


def test_lines_that_are_long_without_keys_are_left_long():
    text = f'keyboard "{"x" * 120}"\n  maker "{"y" * 120}"\n'
    assert form_of(text) == text


@pytest.mark.parametrize(
    "text", ["  loose\nplate\n  line A\n", "plate\n  lime A\n", "<<<<<<< x\nplate\n", "and A\n"]
)
def test_what_cannot_be_read_has_findings_and_no_form(text):
    made = formatted(SourceText("x", text))
    assert made.text is None
    assert any(found.is_error for found in made.findings)


TEXT = "plate\n  # one\n  line  A B\n  line C\n\nlayer x\n A = 1 # two\n"


@pytest.mark.parametrize(
    ("there", "instead"),
    [
        ("A B", "B A"),
        ("A B", "A"),
        ("# one", "# on"),
        ("  # one\n", ""),
        ("# two", ""),
        ("line C", "line C\n  line D"),
        ("  line A B\n  line C", "  line A B C"),
        ("  # one\n  line A B\n  line C", "  line A B\n  # one\n  line C"),
    ],
)
def test_a_form_that_would_not_say_the_same_is_held_back(monkeypatch, there, instead):
    """Planted faults: a writer that loses, moves or changes something writes nothing."""
    right = room.text_of

    def wrong(tree):
        assert there in right(tree)
        return right(tree).replace(there, instead)

    monkeypatch.setattr(room, "text_of", wrong)
    made = formatted(SourceText("x", TEXT))
    assert made.text is None and made.findings == ()
