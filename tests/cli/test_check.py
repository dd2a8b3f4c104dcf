"""`matrixgen check`: exit status, what people read, and JSON."""

import json

import pytest

from matrixgen.cli.printer import carets, excerpt
from matrixgen.model import Span
from matrixgen.resources import resource
from tests.texts import GOOD

WARNED = GOOD.replace("PB1", "PE2")
BROKEN = GOOD.replace("PB1", "PB0")
TEN_MISTAKES = """\
keyboard "Pad"
  controller atmega32u4
  debounce   1 ms
  allow      ghost-possible

plate
  line A B C D E

wiring
  drive columns, sense rows
  diodes 1N4148, band toward rows
  row    r0 on PD9    A B C A
  row    r1 on RESET  B E
  row    r2 on PD1
  column c0 on PB0    A D
  column c1 on PB0    B
  column c2 on PE2    C
"""


def test_a_sound_file_has_nothing_found_and_status_0(program):
    ran = program("check", program.write("pad.keys"))
    budget = "pad.keys: needs 3 of 26 usable pins on `atmega32u4`, 23 spare\n"
    assert (ran.status, ran.out, ran.err) == (0, f"{budget}ready to build: no findings\n", "")


def test_a_file_with_errors_gets_no_pin_budget_and_one_with_warnings_does(program):
    assert "needs 3 of" not in program("check", program.write("pad.keys", BROKEN)).out
    warned = program("check", program.write("pad.keys", WARNED)).out.splitlines()[-2:]
    assert "needs 3 of" in warned[0]
    assert warned[1] == "ready to build: 1 warning"


@pytest.mark.parametrize("text", [BROKEN, GOOD + "nonsense\n", ""])
def test_errors_give_status_1(program, text):
    assert program("check", program.write("pad.keys", text)).status == 1


def test_warnings_alone_give_status_0_and_with_strict_1(program):
    name = program.write("pad.keys", WARNED)
    assert program("check", name).status == 0
    assert program("check", "--strict", name).status == 1
    assert program("check", "--strict", "--json", name).status == 1
    assert program("check", "--strict", program.write("fine.keys", GOOD)).status == 0


def test_a_finding_shows_its_line_its_place_its_notes_and_its_help(program):
    ran = program("check", program.write("pad.keys", BROKEN))
    assert ran.out == (
        "pad.keys:12:16: error[pin-used-twice]: `c1` and `c0` are both on `PB0`\n"
        "  12 |   column c1 on PB0  B\n"
        "     |                ^^^\n"
        "       note: pad.keys:11:16: `c0` uses it here\n"
        "       help: `PB4` is spare\n"
        "\n"
        "1 error\n"
    )


def test_ten_mistakes_of_a_file_are_told_in_one_run(program):
    ran = program("check", "--json", program.write("pad.keys", TEN_MISTAKES))
    slugs = {finding["slug"] for finding in json.loads(ran.out)["findings"]}
    assert slugs == {
        "impractical-debounce",
        "allow-without-effect",
        "key-on-no-row",
        "key-on-no-column",
        "duplicate-visit",
        "key-on-two-rows",
        "wire-without-keys",
        "pin-not-on-controller",
        "reserved-pin",
        "pin-used-twice",
        "pin-with-second-function",
        "diode-against-scan",
    }


@pytest.mark.parametrize("name", ["missing.keys", ".", "latin.keys", "nul\0.keys"])
def test_an_unreadable_file_gives_status_2(program, name):
    program.write("latin.keys", b'keyboard "\xe9"\n')
    ran = program("check", name)
    assert ran.status == 2
    assert "error[" in ran.out


def test_an_unreadable_file_beside_others_gives_status_2_and_the_others_are_checked(program):
    ran = program("check", program.write("pad.keys", BROKEN), "missing.keys")
    assert ran.status == 2
    assert "pin-used-twice" in ran.out
    assert "2 errors in 2 files" in ran.out


def test_standard_input_is_read_for_a_dash(program):
    ran = program("check", "-", stdin=BROKEN.encode())
    assert ran.status == 1
    assert ran.out.startswith("<stdin>:12:16: error[pin-used-twice]")
    assert "  12 |   column c1 on PB0  B\n" in ran.out
    assert program("check", "-", stdin=b"\xff").status == 2


def test_a_file_given_twice_is_checked_once(program):
    name = program.write("pad.keys", BROKEN)
    assert program("check", name, name).out.endswith("\n1 error\n")


def test_byte_order_mark_and_windows_line_ends_change_nothing(program):
    plain = program("check", program.write("pad.keys", BROKEN)).out
    windows = b"\xef\xbb\xbf" + BROKEN.replace("\n", "\r\n").encode()
    assert program("check", program.write("pad.keys", windows)).out == plain


def test_a_tab_takes_as_much_room_above_the_carets_as_before_them(program):
    text = BROKEN.replace("  column c1 on PB0  B", "\tcolumn\tc1 on\tPB0\tB")
    shown, marked = program("check", program.write("pad.keys", text)).out.splitlines()[1:3]
    assert shown == "  12 |     column    c1 on    PB0    B"
    assert marked == "     |                        ^^^"


@pytest.mark.parametrize(
    ("line", "column", "end_column", "marked"),
    [
        ("ab cd", 4, 6, "   ^^"),
        ("\u65e5\u672c cd", 4, 6, "     ^^"),  # each takes two columns of a terminal
        ("x \u65e5\u672c", 3, 5, "  ^^^^"),
        ("e\u0301 cd", 4, 6, "  ^^"),  # an accent on the letter before it takes none
        ("ab", 3, 3, "  ^"),
        ("", 1, 1, "^"),
        ("ab", 9, 12, "  ^"),
    ],
)
def test_carets_are_as_wide_as_what_they_mark(line, column, end_column, marked):
    assert carets(line, Span.in_line("f", 1, column, end_column - column)) == marked


def test_carets_of_a_span_over_many_lines_end_with_its_first_line():
    assert carets("ab cd  ", Span.in_line("f", 1, 4, 0).to(Span.in_line("f", 3, 1, 1))) == "   ^^"


@pytest.mark.parametrize("column", [1, 41, 42, 5_000, 9_999])
def test_of_a_very_long_line_only_the_marked_part_is_shown(column):
    line = "a" * (column - 1) + "XY" + "b" * (10_000 - column)
    shown, marks = excerpt(line, Span.in_line("f", 7, column, 2))
    assert len(shown) <= 202
    assert marks.endswith("^^")
    assert shown[len(marks) - 2 : len(marks)] == "XY"
    assert shown.startswith("…") == (column > 41)


def test_a_mark_longer_than_what_is_shown_ends_with_it():
    shown, marks = excerpt("x" * 10_000, Span.in_line("f", 1, 1, 10_000))
    assert (shown, marks) == ("x" * 200 + "…", "^" * 200)


def test_what_could_drive_a_terminal_is_not_printed(program):
    ran = program("check", program.write("pad.keys", BROKEN + "\x1b[2J\x07\n"))
    assert "\x1b" not in ran.out
    assert "\x07" not in ran.out


def test_an_unknown_controller_is_a_finding(program):
    ran = program("check", program.write("pad.keys", GOOD.replace("atmega32u4", "atmega32u5")))
    assert ran.status == 1
    assert "error[unknown-controller]" in ran.out


def test_a_profile_by_path_is_found_beside_the_file(program):
    (program.folder / "sub").mkdir()
    profile = json.loads((resource("boards") / "at90usb162.json").read_text(encoding="utf-8"))
    del profile["name"]
    program.write("sub/mine.json", json.dumps(profile))
    program.write("sub/pad.keys", GOOD.replace("atmega32u4", '"mine.json"'))
    ran = program("check", "sub/pad.keys")
    assert ran.status == 1
    assert "mine.json:1:1: error[bad-profile]: the profile lacks `name`" in ran.out


def test_json_holds_every_finding_with_its_places(program):
    ran = program("check", "--json", program.write("pad.keys", BROKEN))
    report = json.loads(ran.out)
    assert (ran.status, report["errors"], report["warnings"]) == (1, 1, 0)
    assert report["files"] == ["pad.keys"]
    assert report["findings"] == [
        {
            "slug": "pin-used-twice",
            "severity": "error",
            "path": "pad.keys",
            "line": 12,
            "column": 16,
            "end_line": 12,
            "end_column": 19,
            "message": "`c1` and `c0` are both on `PB0`",
            "helps": ["`PB4` is spare"],
            "notes": [
                {
                    "text": "`c0` uses it here",
                    "path": "pad.keys",
                    "line": 11,
                    "column": 16,
                    "end_line": 11,
                    "end_column": 19,
                }
            ],
            "figure": [],
            "fix": None,
        }
    ]


def test_json_of_a_sound_file_is_an_empty_report(program):
    ran = program("check", "--json", program.write("pad.keys"))
    assert (ran.status, json.loads(ran.out)["findings"]) == (0, [])


@pytest.mark.parametrize("words", [[], ["--fix", "--sarif", "x"], ["--jsn", "x"], ["--bogus"]])
def test_bad_use_gives_status_2_and_says_why(program, words):
    ran = program("check", *words)
    assert (ran.status, ran.out) == (2, "")
    assert "usage: matrixgen check" in ran.err


def test_a_name_without_its_ending_is_told_of(program):
    program.write("pad.keys", GOOD)
    (program.folder / "stall").mkdir()
    program.write("stall/stall.keys", GOOD)
    assert "help: there is a file `pad.keys`" in program("check", "pad").out
    assert "help: there is a file `stall/stall.keys`" in program("check", "stall").out
    for name in ("pod", "", ".", "..", "x" * 300, "pad\0"):
        ran = program("check", name)
        assert (ran.status, "help: there is" in ran.out) == (2, False)
