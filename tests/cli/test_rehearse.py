"""`rehearse` from a script: what is printed, and every way in which it cannot be."""

import json
import sys

import pytest

from matrixgen.cli.main import main

DRAFT = "plate\n  line A B Fn\n\nlayer base\n  Fn = hold layer more\n\nlayer more\n  A = Ctrl+C\n"
TOLD = """\
     0 ms  + Fn  hold layer more
     0 ms        layers: more, base
     1 ms  + A   Ctrl+C
     1 ms        report: Ctrl+C down
    31 ms  - A
    37 ms        report: nothing down
    38 ms  - Fn
    44 ms        layers: base
"""


def test_a_draft_is_played_from_a_pipe(program):
    ran = program("rehearse", program.write("pad.keys", DRAFT), stdin=b"+Fn A -Fn")
    assert (ran.status, ran.out, ran.err) == (0, TOLD, "")


def test_a_script_is_a_file_or_standard_input(program):
    pad = program.write("pad.keys", DRAFT)
    steps = program.write("steps", "+Fn\nA  # copy\n-Fn\n")
    assert program("rehearse", pad, "--script", steps).out == TOLD
    assert program("rehearse", pad, "--script", "-", stdin=b"+Fn A -Fn").out == TOLD
    assert program("rehearse", "-", "--script", steps, stdin=DRAFT.encode()).out == TOLD


def test_a_whole_keyboard_is_played_as_well(program):
    assert "report: A down" in program("rehearse", program.write("pad.keys"), stdin=b"A").out


def test_an_empty_script_is_played_in_silence(program):
    ran = program("rehearse", program.write("pad.keys", DRAFT), stdin=b"# nothing\n")
    assert (ran.status, ran.out, ran.err) == (0, "", "")


def test_json_has_the_same_as_data(program):
    ran = program("rehearse", program.write("pad.keys", DRAFT), "--json", stdin=b"+Fn +A")
    told = json.loads(ran.out)
    assert (told["schema"], told["file"]) == ("urn:matrixgen:rehearse:2", "pad.keys")
    assert told["happenings"] == [
        {"at_ms": 0, "what": "moved", "key": "Fn", "down": True},
        {
            "at_ms": 0,
            "what": "does",
            "key": "Fn",
            "action": "hold layer more",
            "decided": None,
        },
        {"at_ms": 0, "what": "layers", "layers": ["more", "base"]},
        {"at_ms": 1, "what": "moved", "key": "A", "down": True},
        {"at_ms": 1, "what": "does", "key": "A", "action": "Ctrl+C", "decided": None},
        {
            "at_ms": 1,
            "what": "report",
            "of": "keyboard",
            "down": ["Ctrl", "C"],
            "words": "Ctrl+C down",
        },
        {"at_ms": 1, "what": "end", "down": ["A", "Fn"], "undecided": []},
    ]


def test_mistakes_of_a_script_are_told_with_their_places(program):
    pad, steps = program.write("pad.keys", DRAFT), program.write("steps", "A\n  +Fm wait\n")
    ran = program("rehearse", pad, "--script", steps)
    assert (ran.status, ran.out) == (2, "")
    assert ran.err == (
        "steps:2:3: error[unknown-step]: the plate has no key `Fm`\n"
        "  2 |   +Fm wait\n"
        "    |   ^^^\n"
        "      help: `+Key` presses a key of the plate, `-Key` releases it, `Key` taps it, "
        "`wait 200` waits\n"
        "\n"
        "steps:2:7: error[bad-wait]: `wait` has no time after it\n"
        "  2 |   +Fm wait\n"
        "    |       ^^^^\n"
        "      help: write milliseconds in digits, at most 60000, as in `wait 200`\n"
    )
    ran = program("rehearse", pad, stdin=b"-A")
    assert ran.err.startswith("<stdin>:1:1: error[key-not-down]: `A` is not down\n  1 | -A\n")


def test_a_file_with_errors_is_not_played(program):
    ran = program("rehearse", program.write("pad.keys", "plate\n  line A A\n"), stdin=b"A")
    assert (ran.status, ran.out) == (1, "")
    assert "error[duplicate-key]" in ran.err


def test_warnings_do_not_stop_it(program):
    text = 'keyboard "Pad"\n  debounce 100 ms\n\nplate\n  line A\n'
    ran = program("rehearse", program.write("pad.keys", text), stdin=b"A")
    assert ran.status == 0 and "131 ms" in ran.out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("nowhere.keys",), "error[unreadable-file]"),
        (("pad.keys", "--script", "nowhere"), "the script cannot be read: `nowhere`: no such file"),
        (("pad.keys", "--script", "."), "the script cannot be read: `.`: is a directory"),
        (("pad.keys", "--script", "a\0b"), "the script cannot be read"),
        (("pad.keys", "--script", "latin"), "the script cannot be read: `latin` is not UTF-8 text"),
        (("pad.keys", "--script", "huge"), "has more than 1,000,000 bytes"),
        (("-",), "standard input is the file, so it cannot be the script"),
        (("-", "--script", "-"), "standard input is the file, so it cannot be the script"),
    ],
)
def test_bad_use_is_told(program, words, said):
    program.write("pad.keys", DRAFT)
    program.write("latin", b"\xe4")
    program.write("huge", b" " * 1_000_001)
    ran = program("rehearse", *words, stdin=b"A")
    assert (ran.status, ran.out) == (2, "")
    assert said in ran.err


def test_a_closed_standard_input_is_told(program, monkeypatch, capsys):
    pad = program.write("pad.keys", DRAFT)
    monkeypatch.setattr(sys, "stdin", None)
    assert main(["rehearse", pad]) == 2
    assert "the script cannot be read: standard input is closed" in capsys.readouterr().err


def test_a_long_script_gets_a_progress_bar_and_prints_the_same(program, monkeypatch):
    pad = program.write("pad.keys", DRAFT)
    short = program("rehearse", pad, stdin=b"A wait 300 B")
    monkeypatch.setattr("matrixgen.cli.rehearse.LONG_MS", 300)
    assert program("rehearse", pad, stdin=b"A wait 300 B") == short


def test_the_same_script_gives_the_same_bytes(program):
    pad = program.write("pad.keys", DRAFT)
    steps = b"+Fn A B A wait 20 -Fn A +A +B"
    assert len({program("rehearse", pad, stdin=steps).out for _ in range(3)}) == 1


def test_controls_in_a_script_do_not_drive_the_terminal(program):
    ran = program("rehearse", program.write("pad.keys", DRAFT), stdin=b"\x1b[2J")
    assert ran.status == 2 and "\x1b" not in ran.err


def test_byte_order_mark_and_line_ends_make_no_difference(program):
    pad = program.write("pad.keys", DRAFT)
    ran = program("rehearse", pad, stdin="\ufeff+Fn\r\nA\r-Fn".encode())
    assert ran.out == TOLD
