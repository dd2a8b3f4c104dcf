"""Whatever the file, reading it gives findings with places inside it, and never raises.

About nine hundred files, twenty-five times as many in the long run: examples with letters, words,
lines and bytes changed, files made of the language's own words, and whole keyboards made at random,
which have to be read as they were made.
"""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from matrixgen.model import Press
from matrixgen.source import read_design
from matrixgen.source.statements import BLOCKS, STATEMENTS
from tests.amounts import amount
from tests.language.spacing import as_unix
from tests.language.whole import WHOLE, completed

RICH = completed(
    "plate\n  line in 0.5 A:1.5 ~0.25 B\n  hole at 4.5, 0\n  cluster t at 1, -2 turned 15\n"
    "  line C\n  and D:1x2\n\n  keep clear -3, 1.25, 2, 0.8\n"
    "  cluster u mirrors t about 3\n  line E F\n"
    'keyboard "Heron 4"  # a comment\n  controller stick-32u4\n  debounce 5 ms, press 2 ms\n'
    "  usb 1209:0001\n  once lasts 900 ms\n  remember base\n"
    "  allow one A to C\n\nactions\n  copy = Ctrl+C\n  more = hold layer one\n  off = nothing\n"
    "  both = tap copy, hold layer one, after 180 ms, by press, roll 50 ms, other hand\n"
    "  shift = once Shift\n  next = once layer two\n  other = change base to two\n\n"
    "layer base\n  A = more  B = hold layer one  C = nothing\n"
    "  D = tap once Ctrl, hold latch layer two, by time  E = both\n\n"
    "layer one\n  1 ~\n  copy off\n  ~ ~\n\n"
    "layer two\n  shift next\n  other ~\n  ~ ~\n\n"
    "layer three while one and two are on\n  A = change base to base\n"
)
WORDS = ["=", "~", ",", ":", "+", '"', "#", "~0.5", ":1.5", "12", "base", "A", "Q.2", "Ctrl+C", "é"]
FORMS = [one.form for one in (*BLOCKS.values(), *STATEMENTS.values())]
WORDS += [word for form in FORMS for word in form.split()]
WORDS += ["to", "and", "hold", "layer", "nothing", "tap", "once", "change", "base", "latch"]
WORDS += ["after", "roll", "by", "press", "other", "hand", "while", "are", "on"]
FILES = amount("MATRIXGEN_FILES", suite=80, long=5000)
MANY = settings(max_examples=FILES, suppress_health_check=list(HealthCheck))


def check(text):
    """Read a text and check what is found in it."""
    check_findings(*read_design("any.keys", text), text)


def check_findings(design, found, text):
    """Every finding has to lie inside the text, and errors alone keep the keyboard back."""
    lines = as_unix(text).split("\n")
    for span in [one.span for one in found] + [
        n.span for one in found for n in one.notes if n.span
    ]:
        assert 1 <= span.line <= span.end_line <= len(lines)
        assert 1 <= span.column <= len(lines[span.line - 1]) + 1
        assert 1 <= span.end_column <= len(lines[span.end_line - 1]) + 1
        assert (span.line, span.column) <= (span.end_line, span.end_column)
    assert (design is None) == any(one.is_error for one in found)
    assert all(one.message and one.message[-1] != "." for one in found)


def test_the_rich_example_has_no_mistake():
    assert read_design("rich.keys", RICH)[1] == []


@MANY
@given(st.data())
def test_letters_changed(data):
    text = data.draw(st.sampled_from([WHOLE, RICH]))
    for _ in range(data.draw(st.integers(1, 4))):
        place = data.draw(st.integers(0, len(text)))
        cut = data.draw(st.integers(0, 2))
        text = text[:place] + data.draw(st.text(max_size=2)) + text[place + cut :]
    check(text)


@MANY
@given(st.data())
def test_words_changed(data):
    lines = [line.split(" ") for line in data.draw(st.sampled_from([WHOLE, RICH])).split("\n")]
    for _ in range(data.draw(st.integers(1, 4))):
        line = lines[data.draw(st.integers(0, len(lines) - 1))]
        place = data.draw(st.integers(0, len(line) - 1))
        line[place : place + data.draw(st.integers(0, 1))] = [data.draw(st.sampled_from(WORDS))]
    check("\n".join(" ".join(line) for line in lines))


@MANY
@given(st.data())
def test_lines_changed(data):
    lines = data.draw(st.sampled_from([WHOLE, RICH])).split("\n")
    for _ in range(data.draw(st.integers(1, 4))):
        place = data.draw(st.integers(0, len(lines) - 1))
        indent = data.draw(st.sampled_from(["", " ", "\t", "  "]))
        new = data.draw(st.sampled_from([*lines, *FORMS, "", "#"]))
        lines[place : place + data.draw(st.integers(0, 1))] = [indent + new.strip()]
    check("\n".join(lines))


@MANY
@given(st.lists(st.sampled_from([*WORDS, "\n", "\n  ", "\n  ", " "]), max_size=40))
def test_words_of_the_language_in_any_order(words):
    check(" ".join(words))


@settings(max_examples=FILES // 4, suppress_health_check=list(HealthCheck))
@given(place=st.integers(0, len(RICH)), new=st.binary(max_size=3))
def test_bytes_changed(tmp_path_factory, place, new):
    path = Path(tmp_path_factory.getbasetemp()) / "bytes.keys"
    data = RICH.encode()
    path.write_bytes(data[:place] + new + data[place:])
    text = path.read_bytes().decode("utf-8", "replace")
    check_findings(*read_design(path), text)


LETTERS = [chr(code) for code in range(ord("A"), ord("Z") + 1)]


@settings(max_examples=FILES // 4, suppress_health_check=list(HealthCheck))
@given(
    names=st.lists(st.sampled_from(LETTERS), min_size=1, max_size=26, unique=True),
    columns=st.integers(1, 6),
    widths=st.lists(st.sampled_from(["", ":1.5", ":2", ":1x2"]), min_size=26, max_size=26),
    cells=st.lists(st.sampled_from(["~", "1", "Shift+2", "off"]), min_size=26, max_size=26),
)
def test_a_keyboard_made_at_random_is_read_as_it_was_made(names, columns, widths, cells):
    rows = [names[start : start + columns] for start in range(0, len(names), columns)]
    text = 'keyboard "R"\n  controller x\nplate\n'
    sizes = dict(zip(names, widths, strict=False))
    text += "".join(f"  line {' '.join(n + sizes[n] for n in row)}\n" for row in rows) + "wiring\n"
    text += "".join(f"  row r{i} {' '.join(row)}\n" for i, row in enumerate(rows))
    picture = dict(zip(names, cells, strict=False))
    text += "actions\n  off = nothing\nlayer two\n"
    text += "".join(f"  {' '.join(picture[n] for n in row)}\n" for row in rows)
    design, found = read_design("random.keys", text)
    assert found == []
    keyboard = design.keyboard
    assert [[key.name.text for key in line.keys] for line in keyboard.plate.lines] == rows
    assert [[v.text for v in line.visits] for line in keyboard.wiring.lines] == rows
    assert [cell.action for cell in keyboard.layers[0].cells] == [
        Press(4 + LETTERS.index(name)) for name in names
    ]
    given_cells = {cell.key.text: cell.written.text for cell in keyboard.layers[1].cells}
    assert given_cells == {name: cell for name, cell in picture.items() if cell != "~"}


@pytest.mark.parametrize(
    "text", ["", "\n", " ", "\ufeff", "#", '"', "\0", "\r", "layer", "  x", "\n  x"]
)
def test_the_shortest_files(text):
    check(text)
