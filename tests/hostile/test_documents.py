"""What strangers put into texts of a file and of a profile: documents show it and no more."""

from __future__ import annotations

import csv
import io
import json
import re
from base64 import b64encode
from hashlib import sha256

import pytest

from matrixgen.boards import Mounted
from matrixgen.emit.outside_text import csv_cell, markdown_text, seen
from matrixgen.emit.pin_table import PinTable, comma_separated, markdown, pin_table
from matrixgen.resources import resource
from matrixgen.source import read_design
from tests.boards.own_files import good, load
from tests.texts import design_in

TURNED = "abc\u202egnp.exe\u2066\u200f"
NASTY = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "&lt;b&gt;",
    "[here](https://example.org)",
    "![here](https://example.org/a.png)",
    "https://example.org/ or www.example.org",
    "<https://example.org>",
    "one | two | three",
    "*stars*, __lines__, ~~waves~~, `code`",
    "a\\|b\\`c",
    "a\n\n# another heading\n\n- a list",
    "a\r\n\r\n| a | table |",
    "\x1b[31mred\x07",
    TURNED,
)
FORMULAS = ("=1+2", "+1", "-1", "@a", "\t=1", "\r=1", "\n=1", "\uff1d1")
FIELDS = {
    "title": ("title",),
    "the datasheet's title": ("datasheet", "title"),
    "its document": ("datasheet", "document"),
    "its section": ("datasheet", "section"),
    "a used pin's duty": ("used", "duty"),
    "its advice": ("used", "advice"),
    "a spare pin's duty": ("spare", "duty"),
    "a part around": ("around", "part"),
    "where it goes": ("around", "where"),
    "why": ("around", "why"),
    "its source": ("around", "source"),
}
TEXT = """keyboard "{name}"
  controller "mine.json"

plate
  line A - 1 B

wiring
  drive columns, sense rows
  row r0 on PB0 A to B
  column c0 on PB1 A
  column c1 on PB2 -
  column c2 on PB3 1
  column c3 on PB4 B

layer base
  A = B
"""
MARK = "MARK"
USED = ("PB0", "PB1", "PB2", "PB3", "PB4")
MEANT = re.compile(r"[`*_\[\]<>&|~]|://|www\.")
"""What may be markup within a line, where no backslash is before it."""


def table(folder, field: str, text: str) -> PinTable:
    """Return the pin table of a keyboard on a profile where a text stands in one field."""
    document = good()
    pins = {pin["name"]: pin for pin in document["pins"]}
    around = {"part": "p", "where": "w", "why": "y", "source": "s"}
    spare = next(p for n, p in pins.items() if p["use"] == "free" and n not in USED)
    for pin in (pins["PB0"], spare):
        pin.update(use="shared", duty="is shared", advice="mind it")
    document["around"] = [around]
    places = {"used": pins["PB0"], "spare": spare, "around": around}
    *where, last = FIELDS.get(field, ("title",))
    place = document
    for part in where:
        place = places.get(part) or place[part]
    place[last] = text if field in FIELDS else "A board"
    profile, found = load(folder, document)
    assert profile is not None, found
    name = text if field == "the name" else "Pad"
    design = design_in(TEXT.replace("{name}", name))
    return pin_table(Mounted(design.keyboard, design.mountings[0], profile))


def can_be_a_name(text: str) -> bool:
    """Whether a file takes a text as the keyboard's name."""
    return read_design("pad.keys", TEXT.replace("{name}", text))[0] is not None


def assert_shown_only(put: str, text: str) -> None:
    """Assert that what was put into a line of Markdown shows a text and has no markup."""
    assert re.sub(r"\\([^\w\s]|_)", r"\1", put) == seen(text)
    assert not MEANT.search(re.sub(r"\\([^\w\s]|_)", "", put))
    assert put.isprintable() or set(put) <= set(seen(text)) | {"\\"}


@pytest.mark.few(80)
@pytest.mark.parametrize(
    ("field", "text"),
    [(field, text) for field in FIELDS for text in NASTY]
    + [("the name", text) for text in NASTY if can_be_a_name(text)],
)
def test_pins_md_shows_text_as_it_is_and_has_no_more_lines(tmp_path, field, text):
    plain = markdown(table(tmp_path, field, MARK)).split("\n")
    lines = markdown(table(tmp_path, field, text)).split("\n")
    assert len(lines) == len(plain)
    places = [number for number, line in enumerate(plain) if MARK in line]
    assert places, "the field is in the document"
    assert [n for n, pair in enumerate(zip(plain, lines, strict=True)) if len(set(pair)) > 1] == (
        places
    )
    for number in places:
        before, after = plain[number].split(MARK)
        line = lines[number]
        assert line.startswith(before) and line.endswith(after)
        assert_shown_only(line[len(before) : len(line) - len(after)], text)


def cells(folder, field: str, text: str) -> list[str]:
    """Return each cell of the other pin table."""
    read = csv.reader(io.StringIO(comma_separated(table(folder, field, text)), newline=""))
    return [cell for row in read for cell in row]


@pytest.mark.parametrize(
    "text", ["=1+2", "+1", "-1", "@a", "\t=1", "\r=1", "\n=1", "\uff1d1", *NASTY]
)
@pytest.mark.parametrize("field", ["a used pin's duty", "a spare pin's duty"])
def test_no_cell_of_pins_csv_is_a_formula(tmp_path, field, text):
    found = cells(tmp_path, field, text)
    assert not [cell for cell in found if re.match(r"[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]", cell)]
    starts = text[0] in "=+-@\t\r\n\uff1d"
    assert found.count(f"'{seen(text)}" if starts else seen(text)) == 1
    assert "'-" in found, "a key that a column begins with"


def test_only_joiners_of_scripts_stay_among_what_is_not_seen():
    assert seen(TURNED) == "abc[U+202E]gnp.exe[U+2066][U+200F]"
    assert seen("\u0645\u06cc\u200c\u062e ok ü 日本") == "\u0645\u06cc\u200c\u062e ok ü 日本"
    assert seen("a\nb\x1b\x85\u2028\ud800") == "a[U+000A]b[U+001B][U+0085][U+2028][U+D800]"


def test_a_pin_table_in_plain_words_has_no_backslash():
    assert markdown_text("Chip (44 pins), 5 V: what it's for, 1.5 kohm") == (
        "Chip (44 pins), 5 V: what it's for, 1.5 kohm"
    )
    assert csv_cell("is the boot strap HWB") == "is the boot strap HWB"


def test_a_sheet_shows_letters_that_turn_the_order(program):
    program.write("mine.json", json.dumps(good() | {"title": TURNED}))
    text = TEXT.replace("{name}", TURNED)
    program.write("pad\u202e.keys", text)
    ran = program("sheet", "pad\u202e.keys", "--out", "out.html")
    assert ran.status == 0, ran.err
    page = (program.folder / "out.html").read_text("utf-8")
    assert not set(page) & set("\u202e\u2066\u200f") and "\\u202e" not in page
    assert page.count(seen(TURNED)) > 2 and "pad[U+202E].keys" in page


def test_a_sheet_s_policy_names_its_own_scripts_and_no_others(program):
    program.write("mine.json", json.dumps(good()))
    program.write("pad.keys", TEXT.replace("{name}", "script-src SCRIPTS"))
    assert program("sheet", "pad.keys", "--out", "out.html").status == 0
    page = (program.folder / "out.html").read_text("utf-8")
    scripts = page.split("<script>")[1:]
    digests = [sha256(one.split("</script>")[0].encode()).digest() for one in scripts]
    named = [f"'sha256-{b64encode(one).decode()}'" for one in digests]
    policy = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page)
    assert len(policy) == 1 and len(named) == 2
    assert "unsafe-inline" not in policy[0]
    (sources,) = [one for one in policy[0].split("; ") if one.startswith("script-src ")]
    assert sources.split()[1:] == [*named, "'wasm-unsafe-eval'"]
    assert "<h1>script-src SCRIPTS</h1>" in page


@pytest.mark.parametrize("schema", ["profile.schema.json", "diodes.schema.json"])
def test_no_pattern_of_a_schema_lets_a_line_end_by(schema):
    text = (resource("boards") / schema).read_text("utf-8")
    patterns = re.findall(r'"pattern": ("(?:[^"\\]|\\.)*")', text)
    assert patterns
    for one in map(json.loads, patterns):
        for good_word in ("a", "A", "1", "1N4148", "PB0"):
            assert not re.search(one, f"{good_word}\n"), "Python's `$` is before a line end too"


@pytest.mark.parametrize("name", ["a\n", "a\nb", "a\r", "\u202ea"])
def test_a_profile_s_name_is_one_word(tmp_path, name):
    profile, found = load(tmp_path, good() | {"name": name})
    assert profile is None and found
