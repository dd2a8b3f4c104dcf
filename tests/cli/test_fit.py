"""`fit`: the tables, a wiring shown or written, and every way of asking for what cannot be."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names
from matrixgen.fit import search
from matrixgen.jobs.examine import examine
from matrixgen.model import matrix_of
from matrixgen.model.meaning import mounted_meaning
from matrixgen.resources import resource
from tests.documents import report_of
from tests.examples.shipped import FOLDER, NAMES
from tests.terminal import Terminal
from tests.texts import GOOD

pytestmark = pytest.mark.usefixtures("one_search_a_plate")

PLATE = """\
plate
  line Q W E R T Y
  line A S D F G H
  hole at 7, 1
  line ~0.5 Z X C V Fn
  keep clear 7, 1.5, 2, 1
"""
NAMED = f'keyboard "Pad"   # a name\n\n{PLATE}   # as drawn in May\n'
STICK = NAMED.replace("\n\n", "\n  controller stick-32u4\n\n", 1)


@pytest.mark.parametrize("name", ["heron-12", "knot-21"])
def test_the_tables_have_every_controller_in_80_columns(program, name):
    path = str(FOLDER / name / f"{name}.keys")
    ran = program("fit", path)
    assert (ran.status, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert max(map(len, lines[1:])) <= 80
    for controller in builtin_names():
        assert sum(line.startswith(f"{controller} ") for line in lines) == 1
    report = report_of(program("fit", path, "--json").out, "fit")
    assert [one["controller"] for one in report["controllers"]] == list(builtin_names())
    assert len(report["controllers"]) >= 20


def test_a_plate_alone_is_enough_and_so_are_keys_without_a_meaning(program):
    ran = program("fit", program.write("pad.keys", PLATE))
    assert ran.status == 0
    assert ran.out.startswith("pad.keys: 17 keys\n")
    assert "as drawn" in ran.out
    assert "74HC595" in ran.out and "only for comparison" in ran.out


def test_a_smaller_matrix_is_taken_where_pins_are_few_and_said_to_be(program, monkeypatch):
    monkeypatch.setattr(search, "STAGES", search.STAGES[:1])  # how much wire it takes is not asked
    name = program.write("long.keys", "plate\n" + "".join(_lines(6, 20)))
    report = report_of(program("fit", name, "--json").out, "fit")
    by_name = {one["controller"]: one for one in report["controllers"]}
    assert report["matrices"][0]["pins"] == 26
    assert by_name["at90usb1286"]["verdict"] == "fits"
    assert by_name["at90usb162"]["verdict"] == "too few pins"
    assert by_name["at90usb162"]["spare"] == 21 - 22
    assert by_name["board-32u4-25"]["verdict"] == "fits if folded"
    assert by_name["board-32u4-25"]["pins"] <= 25


def _lines(rows: int, keys: int) -> list[str]:
    return [f"  line {' '.join(f'k{row}-{n}' for n in range(keys))}\n" for row in range(rows)]


def test_what_stands_in_the_way_is_what_check_says(program):
    report = report_of(program("fit", program.write("pad.keys", PLATE), "--json").out, "fit")
    by_name = {one["controller"]: one for one in report["controllers"]}
    found = by_name["stick-32u4-3v3"]["obstacles"]
    assert [one["slug"] for one in found] == ["low-level-not-guaranteed"]
    assert by_name["stick-32u4"]["obstacles"] == []
    name = program.write("pad.keys", NAMED.replace("\n", "\n  boot-loader double reset\n", 1))
    report = report_of(program("fit", name, "--json").out, "fit")
    by_name = {one["controller"]: one for one in report["controllers"]}
    slugs = [one["slug"] for one in by_name["at90usb162"]["obstacles"]]
    assert slugs == ["controller-without-double-reset"]
    assert by_name["rp2040"]["obstacles"] == []
    told = program("fit", name).out
    assert "[1] controller-without-double-reset: " in told and " more like this" in told


def test_a_users_own_controller_comes_first(program):
    text = (resource("boards") / "at90usb162.json").read_text("utf-8")
    program.write("mine.json", text.replace('"name": "at90usb162"', '"name": "mine"'))
    name = program.write("pad.keys", STICK.replace("stick-32u4", '"mine.json"'))
    report = report_of(program("fit", name, "--json").out, "fit")
    assert report["controllers"][0]["controller"] == "mine"


@pytest.mark.parametrize(("rows", "columns"), [(3, 6), (6, 3), (5, 4), (4, 5), (17, 1), (1, 17)])
def test_a_wiring_that_is_written_checks_clean_and_is_the_one_that_was_shown(
    program, rows, columns
):
    name = program.write("pad.keys", STICK)
    asked = (f"--rows={rows}", f"--columns={columns}")
    shown = program("fit", name, *asked)
    block = shown.out.split("\n\n")[1]
    wrote = program("fit", name, *asked, "--write")
    assert (wrote.status, wrote.err) == (0, "")
    after = (program.folder / name).read_text("utf-8")
    assert after == f"{STICK}\n{block}\n"
    examined = examine(name)
    assert examined.is_sound
    matrix = matrix_of(examined.design.keyboard)
    assert (len(matrix.senses), len(matrix.drives)) == (rows, columns)
    assert len({(one.sense, one.drive) for one in matrix.contacts}) == 17
    assert examined.missing == ("no action for `Fn`",)
    assert {line.name.text for line in examined.design.keyboard.wiring.lines} == set(
        examined.design.pins
    )


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("tail", ["", "\n# the end", "\n\n\nlayer base\n\tFn = A # tab\n"])
def test_writing_touches_no_other_byte(program, ends, mark, tail):
    text = (mark + STICK.rstrip("\n") + tail).replace("\n", ends)
    name = program.write("pad.keys", text)
    assert program("fit", name, "--write").status == 0
    after = (program.folder / name).read_bytes().decode()
    start = after.index("wiring")
    end = after.index("on", after.rindex("column "))
    end = after.index(ends, end) + len(ends)
    before, block, rest = after[:start], after[start:end], after[end:]
    assert block.count("\n") == block.count(ends)
    assert before.endswith(ends * 2)
    plain = before.removesuffix(ends)
    assert text in (plain + rest, plain.removesuffix(ends) + rest)
    assert examine(name).is_sound


def test_the_controller_is_written_too_where_the_file_names_none(program):
    name = program.write("pad.keys", NAMED)
    assert program("fit", name, "--controller", "rp2040-40pin", "--write").status == 0
    text = (program.folder / name).read_text("utf-8")
    assert 'keyboard "Pad"   # a name\n  controller rp2040-40pin\n\nplate' in text
    assert examine(name).missing == ("no action for `Fn`",)


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize(
    ("text", "begins"),
    [
        (PLATE, 'keyboard "my pad"\n  controller stick-32u4\n\nplate\n'),
        (
            f"# for Ada\n# {'=' * 9}\n\n# as drawn\n{PLATE}",
            f"# for Ada\n# {'=' * 9}\n\n"
            'keyboard "my pad"\n  controller stick-32u4\n\n# as drawn\nplate\n',
        ),
        (
            f"# as drawn\n{PLATE}",
            'keyboard "my pad"\n  controller stick-32u4\n\n# as drawn\nplate\n',
        ),
        (NAMED, 'keyboard "Pad"   # a name\n  controller stick-32u4\n\nplate\n'),
        (
            f'{PLATE}\nwiring # none yet\n  row r0 Q to Fn\n\nkeyboard "Pad"',
            PLATE + "\nwiring # none yet\n",
        ),
    ],
)
def test_the_controller_is_written_with_a_name_where_there_is_none(program, text, begins, ends):
    name = program.write("my pad.keys", text.replace("\n", ends))
    ran = program("fit", name, "--controller", "stick-32u4", "--write", "--replace")
    assert (ran.status, ran.err) == (0, "")
    after = (program.folder / name).read_bytes().decode()
    assert after.count("\n") == after.count(ends)
    assert after.replace("\r\n", "\n").startswith(begins)
    examined = examine(name)
    assert examined.missing == ("no action for `Fn`",)
    assert [word.text for word in examined.design.controllers] == ["stick-32u4"]
    assert program("fit", name, "--write", "--replace").out.endswith("already has this wiring\n")


def test_a_name_that_usb_would_not_take_is_not_made_of_a_files_name(program):
    name = program.write(f'{"long " * 30}"\\.keys', PLATE)
    assert program("fit", name, "--controller", "rp2040", "--write").status == 0
    assert examine(name).is_sound
    text = program("fit", "-", "--controller", "rp2040", stdin=PLATE.encode()).out
    assert 'keyboard "stdin"\n  controller rp2040\n' in text


@pytest.mark.parametrize("tail", ["", "  # the wires\n", "\nlayer base\n  Fn = A\n"])
@pytest.mark.parametrize(
    "head",
    [
        "wiring",
        "wiring   # to come\n  drive rows, sense columns   # as I like it\n",
        "wiring\n  # from the bag\n  diodes BAT85, band toward rows  # fifty\n",
        "wiring\n\tsettle 9 us\n\tdrive rows, sense columns\n",
        "wiring\n  without diode Q to Fn\n",
    ],
)
def test_a_block_without_wires_is_filled_and_all_that_it_says_is_kept(program, head, tail):
    text = f"{STICK}\n{head}{tail and chr(10) * (head[-1] != chr(10))}{tail}"
    name = program.write("pad.keys", text)
    ran = program("fit", name, "--write")
    assert (ran.status, ran.err) == (0, "")
    after = (program.folder / name).read_text("utf-8")
    kept = [line for line in text.splitlines() if line.strip()]
    assert [line for line in after.splitlines() if line in kept] == kept
    examined = examine(name)
    assert examined.is_sound
    wiring = examined.design.keyboard.wiring
    assert len(wiring.lines) == 9
    assert wiring.drive == ("row" if "rows" in head else "column")
    if "without" in head:
        assert wiring.diodes is None
    else:
        assert wiring.diodes.part.text == ("BAT85" if "BAT85" in head else "1N4148")
        assert wiring.diodes.band_toward == wiring.drive
    assert program("fit", name, "--write", "--replace").out.endswith("already has this wiring\n")


def test_a_diode_that_drops_less_is_taken_where_the_usual_one_is_not_sure_to_do(program):
    for controller, diode in (("stick-32u4-3v3", "BAT85"), ("stick-32u4", "1N4148")):
        name = program.write("pad.keys", NAMED)
        program("fit", name, "--controller", controller, "--write")
        assert f"diodes {diode}, band" in (program.folder / name).read_text("utf-8")
        assert "low-level" not in program("check", name).out


REPLACED = """\
keyboard "Pad"
  controller stick-32u4, rp2040-40pin

plate
  line Q W E R ~3 Up Left
  hole  at 5.5,1   # under the jack
  line A S D F ~3 Down
  keep clear 4.25, 0, 2, 0.75   # the board

wiring   # soldered in June
  drive columns, sense rows
  # the top one is red
  row    top  on PB4, GP1  wire red  Q to Left   # printed 8
  row    low  on PB5, GP2             A to Down
  column c0   on PC6, GP3  wire blue  Q A     # printed 5
  column c1   on PD0, GP4  W S
  diodes 1N4148, band toward columns   # from the bag
  column c2   on PD1, GP5  E D
  # spare
  column c3   on PD4, GP6  R     # from an old
    and F                        # radio
  column c4   on PD7, GP7  Up Down
  column c5   on PE6, GP8  Left
  settle 9 us
"""


def test_replacing_keeps_names_pins_colours_and_comments_of_wires_that_go_on(program):
    name = program.write("pad.keys", REPLACED)
    ran = program("fit", name, "--rows", "3", "--write", "--replace")
    assert (ran.status, ran.err) == (0, "")
    after = (program.folder / name).read_text("utf-8")
    for kept in (
        "wiring   # soldered in June\n  drive columns, sense rows\n  # the top one is red\n",
        "# printed 8\n",
        "  diodes 1N4148, band toward columns   # from the bag\n",
        "  column c0   on PC6, GP3  wire blue  Q A     # printed 5\n",
        "  # spare\n",
        "# from an old\n  # radio\n",
        "  settle 9 us\n",
        REPLACED[REPLACED.index("plate") : REPLACED.index("wiring")],
    ):
        assert kept in after
    design = examine(name).design
    lines = {line.name.text: line for line in design.keyboard.wiring.lines}
    assert len(lines) == 7
    assert {"top", "low"} <= set(lines)
    assert lines["top"].colour.text == "red"
    assert [word.text for word in design.pins["top"]] == ["PB4", "GP1"]
    fresh = [pins for line, pins in design.pins.items() if line[0] == "r"]
    assert fresh and all(pins[1].text.startswith("GP") for pins in fresh)
    assert len(matrix_of(design.keyboard).contacts) == 11


def test_what_is_there_already_is_not_written_again(program):
    name = program.write("pad.keys", STICK)
    program("fit", name, "--write")
    first = (program.folder / name).read_bytes()
    ran = program("fit", name, "--write", "--replace")
    assert "the file already has this wiring" in ran.out
    assert (program.folder / name).read_bytes() == first


@pytest.mark.few(5)
@pytest.mark.parametrize("name", NAMES)
def test_every_example_can_be_wired_anew_and_means_what_its_layers_say(program, name):
    text = (FOLDER / name / f"{name}.keys").read_text("utf-8")
    path = program.write("new.keys", text)
    ran = program("fit", path, "--rows", "7", "--write", "--replace")
    if "need" in ran.err:
        assert ran.status == 2
        return
    assert (ran.status, ran.err) == (0, "")
    before, after = examine(str(FOLDER / name / f"{name}.keys")), examine(path)
    assert after.is_finished
    old, new = mounted_meaning(before.design), mounted_meaning(after.design)
    assert old != new
    assert before.design.keyboard.plate.keys == _moved(after, before)


def _moved(after, before):
    """The keys of one file, equal but for their places if nothing but lines of wires changed."""
    names = [key.name.text for key in after.design.keyboard.keys]
    same = [key.name.text for key in before.design.keyboard.keys]
    return before.design.keyboard.plate.keys if names == same else None


def test_json_has_the_wiring_that_was_asked_for(program):
    report = report_of(
        program("fit", program.write("p.keys", STICK), "--rows=5", "--json").out, "fit"
    )
    wiring = report["wiring"]
    assert (wiring["rows"], wiring["columns"], wiring["diodes"]) == (5, 4, 17)
    assert sorted(
        key for one in wiring["lines"] if one["axis"] == "row" for key in one["keys"]
    ) == sorted([*"QWERTYASDFGHZXCV", "Fn"])
    assert wiring["text"].startswith("wiring\n")


BAD = {
    "too few cells": (("--rows=4", "--columns=4"), "4 rows and 4 columns hold 16 keys"),
    "too many rows": (("--rows=18",), "18 rows are more than the plate has keys: 17"),
    "too many columns": (("--columns=18",), "18 columns are more than the plate has keys: 17"),
    "too few pins": (("--rows=2", "--columns=17"), "need 19 pins, and `stick-32u4` has 18"),
    "replace alone": (("--replace",), "--replace needs --write"),
    "no such controller": (("--controller=stick",), "no controller is called `stick`"),
    "no such profile": (("--controller=no.json",), "`no.json` cannot be read"),
    "another controller": (
        ("--controller=rp2040",),
        "the file is for `stick-32u4`, not for `rp2040`",
    ),
}


@pytest.mark.parametrize(("words", "said"), BAD.values(), ids=BAD)
def test_what_cannot_be_is_refused_and_nothing_is_written(program, words, said):
    name = program.write("pad.keys", STICK)
    ran = program("fit", name, *words, *([] if "--replace" in words else ["--write"]))
    assert (ran.status, ran.out) == (2, "")
    assert said in ran.err
    assert (program.folder / name).read_text("utf-8") == STICK


@pytest.mark.parametrize("words", [["--rows=0"], ["--rows=-3"], ["--rows=x"], ["--columns=1.5"]])
def test_a_number_that_is_none_is_bad_use(program, words):
    ran = program("fit", program.write("pad.keys", STICK), *words)
    assert (ran.status, ran.out) == (2, "")
    assert "is not a number of wires, 1 or more" in ran.err


def test_a_wiring_that_is_there_is_not_replaced_unasked(program):
    name = program.write("pad.keys", GOOD)
    ran = program("fit", name, "--write")
    assert ran.status == 2
    assert "`--write --replace`" in ran.err
    assert (program.folder / name).read_text("utf-8") == GOOD


def test_a_file_that_nobody_may_write_to_is_left_alone(program):
    name = program.write("pad.keys", STICK)
    (program.folder / name).chmod(0o444)
    ran = program("fit", name, "--write")
    assert ran.status == 2
    assert ran.err == "matrixgen: `pad.keys` cannot be written: it is read-only\n"
    assert (program.folder / name).read_text("utf-8") == STICK


def test_standard_input_can_be_fitted_but_not_written(program):
    assert program("fit", "-", "--rows=6", stdin=STICK.encode()).status == 0
    ran = program("fit", "-", "--write", stdin=STICK.encode())
    assert (ran.status, ran.out) == (2, "")


@pytest.mark.parametrize(
    ("text", "status", "said"),
    [
        ('keyboard "Pad"\n', 1, "error[missing-block]"),
        (STICK.replace("Fn", "~-3 A"), 1, "error["),
        (STICK.replace("line ~0.5 Z", "line ~0.5 Z:1 Z"), 1, "error["),
        ("plate\n  line A:2 ~-1 B\n", 1, "error["),
    ],
)
def test_a_file_with_mistakes_is_told_them(program, text, status, said):
    ran = program("fit", program.write("pad.keys", text))
    assert (ran.status, ran.out) == (status, "")
    assert said in ran.err


def test_overlapping_keys_are_told(program):
    text = PLATE + "  cluster thumb at 1.5, 1\n    line K\n"
    ran = program("fit", program.write("pad.keys", text))
    assert ran.status == 0
    assert "warning[keys-overlap]: `K` overlaps" in ran.err


def test_a_file_that_is_not_there_is_told(program):
    ran = program("fit", "none.keys")
    assert (ran.status, ran.out) == (2, "")


def test_a_bar_is_shown_on_a_terminal_when_it_takes_long(tmp_path):
    path = tmp_path / "pad.keys"
    path.write_text(PLATE, encoding="utf-8")
    silent = ("sh", "-c", '"$@" > /dev/null', "sh", sys.executable)
    terminal = Terminal("-c", _with_a_bar_at_once(path), program=silent)
    assert terminal.status() == 0
    assert b"laying out" in terminal.said and b"%" in terminal.said


def _with_a_bar_at_once(path: Path) -> str:
    """A program that fits a file, and for which everything takes long enough for a bar."""
    at_once = "from matrixgen.cli import progress; progress.BAR_AFTER = 0"
    return f"{at_once}; from matrixgen.cli.main import main; exit(main({['fit', str(path)]}))"


def test_no_bar_is_shown_in_a_pipe(tmp_path):
    path = tmp_path / "pad.keys"
    path.write_text(PLATE, encoding="utf-8")
    command = [sys.executable, "-c", _with_a_bar_at_once(path)]
    ran = subprocess.run(command, capture_output=True, check=False)
    assert (ran.returncode, ran.stderr) == (0, b"")
    assert b"17 keys" in ran.stdout
