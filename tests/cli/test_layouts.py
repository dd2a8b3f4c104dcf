"""`layouts`: the list, one layout drawn, what differs by system, and names that there are not."""

import json

import pytest

from matrixgen.cli.layout_text import ROWS
from matrixgen.layouts import SYSTEMS, layout_named, layout_names
from tests.documents import form_of, report_of


def test_the_list_has_each_layout_on_one_line_with_its_language(program):
    ran = program("layouts")
    lines = ran.out.splitlines()[1:]
    assert (ran.status, [line.split()[0] for line in lines]) == (0, list(layout_names()))
    rows = {line.split()[0]: line for line in lines}
    assert rows["de"].endswith("  linux, windows, macos  German")
    assert rows["fi"].split() == ["fi", "linux", "Finnish"]
    assert max(map(len, lines)) <= 80


def test_on_a_system_it_lists_what_is_known_there(program):
    lines = program("layouts", "--on", "macos").out.splitlines()[1:]
    assert len(lines) == 14 and all("macos" in line for line in lines)


@pytest.mark.parametrize("name", layout_names())
def test_each_layout_is_drawn_with_all_keys_of_its_rows(program, name):
    ran = program("layouts", name)
    assert (ran.status, ran.err) == (0, "")
    drawing = ran.out.split("\n\n")[1].splitlines()
    layout = layout_named(name)
    keys = [usage for row in ROWS for usage in row if usage in layout.usages]
    halves = [line for line in drawing if not line.startswith("+")]
    assert sum(len(line) // 6 for line in halves) >= 2 * len(keys)
    assert len(drawing) == 3 * len(ROWS) + 1
    assert max(map(len, (line for line in drawing if line.startswith("+")))) <= 80


def test_a_key_has_its_four_signs_and_dead_ones_a_mark(program):
    drawing = program("layouts", "de").out.split("\n\n")[1].splitlines()
    assert drawing[1].endswith("|?  ¿ |`* ˛*|")
    assert drawing[2].startswith("|^* ′ |1  ¹ |2  ² |") and drawing[2].endswith("|´* ¸*|")


def test_it_says_how_many_signs_there_are_and_what_differs_by_system(program):
    told = program("layouts", "de").out
    assert "signs on Windows" in told and "source" in told and "xkb-data" in told
    rows = {line.split()[0]: line.split()[1:] for line in told.split("\n\n")[-1].splitlines()}
    assert rows["@"] == ["AltGr+Q", "AltGr+Q", "Option+L"]
    assert rows["^"] == ["Grave,", "Space", "Grave,", "Space", "NonUSBackslash,", "Space"]
    assert "ß" not in rows and "²" in rows and rows["²"][2] == "-"


def test_on_macos_the_signs_are_those_of_macos(program):
    ran = program("layouts", "fr", "--on", "macos")
    assert ran.status == 0 and "fr: French, on macOS" in ran.out and "|@  " in ran.out
    assert "keypad          / * - + 1" in ran.out


def test_where_only_x11_is_known_that_is_said(program):
    assert "nothing is known; only X11's data are" in program("layouts", "fi").out
    ran = program("layouts", "fi", "--on", "windows")
    assert (ran.status, ran.out) == (2, "")
    assert "nothing is known of the layout `fi` on windows" in ran.err


@pytest.mark.parametrize(
    ("name", "help"),
    [
        ("german", "there are `de`, `de(neo)`, `at`, `ch`"),
        ("greek", "there is `gr`"),
        ("us-intl", "there are `us(intl)`, `us`, `us(colemak)`, `us(dvorak)`"),
        ("xylophone", "`matrixgen layouts` lists the layouts"),
        ("../compose", "`matrixgen layouts` lists the layouts"),
    ],
)
def test_a_name_that_there_is_not_gets_the_nearest(program, name, help):
    ran = program("layouts", name)
    assert (ran.status, ran.out) == (2, "")
    assert f"no layout is called `{name}`" in ran.err and help in ran.err


def test_a_system_that_there_is_not_is_bad_use(program):
    assert program("layouts", "de", "--on", "another").status == 2


@pytest.mark.parametrize("system", [None, *SYSTEMS])
@pytest.mark.parametrize("name", ["de", "us", "us(intl)", "gr"])
def test_as_json_it_has_the_form_of_its_schema(program, name, system):
    words = [name, "--json", *(["--on", system] if system else [])]
    report = json.loads(program("layouts", *words).out)
    layout = layout_named(name, system)
    if not layout.is_known:
        assert form_of(report) == "failure"
        return
    assert form_of(report) == "layouts"
    shown = report["layout"]
    assert (shown["name"], shown["on"]) == (name, system)
    assert tuple(shown["signs"]) == layout.typable()
    assert {key["usage"]: tuple(key["signs"]) for key in shown["keys"]} == {
        usage: layout.signs(usage) for usage in layout.usages
    }


def test_the_list_as_json_has_the_same_names(program):
    report = report_of(program("layouts", "--json").out, "layouts")
    assert [row["name"] for row in report["layouts"]] == list(layout_names())
