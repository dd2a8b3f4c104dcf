"""The pin table says just what the file and the profile say, and survives odd names."""

import csv
import io

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.emit import loading_words
from matrixgen.emit.jinja import markdown_cell
from matrixgen.emit.outside_text import csv_cell
from matrixgen.emit.pin_table import CSV_COLUMNS, comma_separated, markdown, pin_table
from matrixgen.emit.wire_colours import COLOURS, WireColour, wire_colours
from tests.examples.shipped import NAMES, example
from tests.texts import examined, good_on, keyboard_in


def records(name: str) -> list[dict[str, str]]:
    shipped = example(name)
    text = comma_separated(pin_table(shipped.mounted))
    return list(csv.DictReader(io.StringIO(text)))


@pytest.mark.parametrize("name", NAMES)
def test_each_line_of_the_file_is_one_record_with_its_keys_in_soldering_order(name: str) -> None:
    wiring = example(name).keyboard.wiring
    found = [record for record in records(name) if record["kind"] in ("row", "column")]
    said = {
        (line.axis, line.name.text, csv_cell(" ".join(word.text for word in line.visits)))
        for line in wiring.lines
    }
    assert {(record["kind"], record["name"], record["keys"]) for record in found} == said
    assert len(found) == len(wiring.lines)
    for record in found:
        assert record["scan"] == ("driven" if record["kind"] == wiring.drive else "sensed")


@pytest.mark.parametrize("name", NAMES)
def test_used_spare_and_reserved_pins_are_all_pins_of_the_controller_once(name: str) -> None:
    pins = [record["pin"] for record in records(name)]
    assert sorted(pins) == sorted(pin.name for pin in example(name).profile.pins)


def test_the_file_s_own_colours_are_kept_and_others_suggested() -> None:
    heron = {record["name"]: record for record in records("heron-12") if record["name"]}
    assert (heron["middle"]["wire"], heron["middle"]["wire_chosen_by"]) == ("orange", "file")
    godwit = [record for record in records("godwit-46") if record["name"]]
    assert [record["wire"] for record in godwit[:14]] == list(COLOURS)
    assert [record["wire"] for record in godwit[14:]] == ["brown, one knot", "orange, one knot"]
    assert {record["wire_chosen_by"] for record in godwit} == {"suggestion"}


@pytest.mark.parametrize("name", NAMES)
def test_no_two_wires_of_a_keyboard_are_suggested_alike(name: str) -> None:
    named = [record for record in records(name) if record["name"]]
    wires = [record["wire"] for record in named if record["kind"] in ("row", "column")]
    assert "" not in wires and len(set(wires)) == len(wires)
    others = [record for record in named if record["kind"] not in ("row", "column")]
    assert {record["wire"] for record in others} <= {""}, "lights and knobs have no colour"


def test_a_suggestion_is_no_colour_of_the_file_s_while_others_last() -> None:
    words = [("row", "r0", "brown"), ("row", "r1", None), ("column", "c0", "red")]
    words += [("column", f"c{n}", None) for n in range(1, 30)]
    lines = "".join(
        f"  {axis} {name} on P{name}{f' wire {colour}' if colour else ''}  A\n"
        for axis, name, colour in words
    )
    colours = wire_colours(keyboard_in(f"plate\n  line A\nwiring\n{lines}").wiring)
    assert colours["r0"] == WireColour("brown", 0, True)
    suggested = [colour for colour in colours.values() if not colour.from_file]
    assert len(set(suggested)) == len(suggested)
    assert {colour.name for colour in suggested[:12]} == set(COLOURS) - {"brown", "red"}
    assert suggested[11].name == "black", "supply and ground come last"
    assert suggested[12].shown == "brown, one knot"
    assert suggested[-1].knots == 2
    assert suggested[-1].shown.endswith(", two knots")


def test_the_csv_has_one_header_and_crlf_line_ends_as_rfc_4180_says() -> None:
    shipped = example("heron-12")
    text = comma_separated(pin_table(shipped.mounted))
    assert text.startswith(",".join(CSV_COLUMNS) + "\r\n")
    assert text.count("\n") == text.count("\r\n")


@pytest.mark.parametrize("name", NAMES)
def test_the_page_s_tables_have_as_many_cells_in_each_row(name: str) -> None:
    shipped = example(name)
    page = markdown(pin_table(shipped.mounted))
    width = 0
    for line in page.splitlines():
        if not line.startswith("|"):
            width = 0
            continue
        cells = line.replace("\\|", "").count("|") - 1
        assert width in (0, cells), line
        width = cells


def test_the_page_says_which_way_the_band_points() -> None:
    shipped = example("heron-12")
    page = markdown(pin_table(shipped.mounted))
    assert "**The band points toward the column wire.**" in page
    assert "row wire, switch, diode (in at the plain end, out at the band), column wire" in page


@pytest.mark.parametrize(
    ("text", "cell"), [("Esc", "`Esc`"), ("`", "`` ` ``"), ("a|b", "`a\\|b`"), ("\\", "`\\`")]
)
def test_a_key_s_name_is_code_in_markdown_whatever_its_sign(text: str, cell: str) -> None:
    assert markdown_cell(text) == cell


# --- how the boot loader is entered ---

ASKED = """\
  boot-loader hold Esc A `
  boot-loader double reset
"""
PAD = """\
keyboard "Pad"
  controller rp2040-40pin
{asked}
plate
  line Esc A `

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on GP2  Esc A `
  column c0 on GP3  Esc
  column c1 on GP4  A
  column c2 on GP5  `

actions
  update = start boot loader
  more   = hold layer more

layer base
  Esc = more

layer more
  A = {action}
"""


def loading(asked: str, action: str) -> str:
    """The section of a page on how an image is loaded."""
    return page_of(PAD.format(asked=asked, action=action)).partition("## To load an image\n")[2]


def test_the_page_says_each_way_into_the_boot_loader_as_the_file_has_it() -> None:
    ways = [line for line in loading(ASKED, "update").splitlines() if line.startswith("- ")]
    assert ways == [
        "- Hold down `Esc`, `A` and `` ` `` together for one second.",
        "- Press the reset button twice within half a second.",
        "- Press `A` while layer `more` is on.",
    ]


def test_the_page_of_a_file_that_asks_for_none_says_so() -> None:
    section = loading("", "B")
    assert "The file names no key that starts the boot loader" in section
    assert "- " not in section


@pytest.mark.parametrize("name", NAMES)
def test_a_page_has_no_gap_of_two_empty_lines_and_one_end(name: str) -> None:
    shipped = example(name)
    page = markdown(pin_table(shipped.mounted))
    assert "\n\n\n" not in page
    assert page.endswith(".\n")


# --- diodes ---

DIODES = "  diodes 1N4148, band toward {toward}s\n"
TWO_BY_TWO = """\
keyboard "Pad"
  controller stick-32u4
plate
  line A B
  line ` C
wiring
  drive {drive}s, sense {sense}s
{diodes}
  row    r0 on PD0  A B
  row    r1 on PD1  ` C
  column c0 on PF4  A `
  column c1 on PD4  B C
"""


def page_of(text: str) -> str:
    (mounted,) = examined(text).mounted
    return markdown(pin_table(mounted))


@pytest.mark.parametrize(("drive", "sense"), [("column", "row"), ("row", "column")])
def test_the_diode_test_goes_from_the_sensed_wire_to_the_driven_one(drive: str, sense: str) -> None:
    diodes = DIODES.format(toward=drive)
    page = page_of(TWO_BY_TWO.format(drive=drive, sense=sense, diodes=diodes))
    words = " ".join(page.split())
    assert f"red probe on its {sense} wire, black probe on its {drive} wire." in words
    assert "across each switch" not in words, "a switch that is held down is a short"


def test_a_page_says_where_the_bands_point_and_not_in_which_words_the_file_says_it() -> None:
    plain, turned = (
        page_of(TWO_BY_TWO.format(drive="column", sense="row", diodes=diodes))
        for diodes in (
            DIODES.format(toward="column"),
            DIODES.format(toward="row") + "  reversed A B C `",
        )
    )
    assert "**The band points toward the column wire.**" in turned
    assert plain == turned


def test_a_page_without_diodes_has_no_diode_test_and_says_what_rectangles_do() -> None:
    page = page_of(TWO_BY_TWO.format(drive="column", sense="row", diodes="  without diode A B C `"))
    assert "Diode test" not in page
    assert "Three keys held down at three corners" in page
    pedal = """\
keyboard "Pedal"
  controller stick-32u4
plate
  line A B
wiring
  drive columns, sense rows
  without diode A B
  row    r0 on PD0  A B
  column c0 on PD1  A
  column c1 on PD4  B
"""
    page = page_of(pedal)
    assert "2 keys, 1 row and 2 columns:" in page
    assert "rectangle" not in page


def test_exceptions_of_diodes_and_advice_on_pins_read_as_the_rest_of_the_page() -> None:
    exceptions = DIODES.format(toward="column") + "  without diode ` C"
    page = page_of(TWO_BY_TWO.format(drive="column", sense="row", diodes=exceptions))
    assert "Without a diode: `` ` ``, `C`." in page
    assert "is the JTAG port's TCK: nothing to do: the firmware" not in page
    assert "is the JTAG port's TCK; nothing to do: the firmware turns JTAG off" in page


def loading_section(controller: str, hold: str = "  boot-loader hold A B\n") -> str:
    text = good_on(controller, "PD0", "PB2", "PB3")
    return page_of(text.replace("\n\nplate", f"\n{hold}\nplate"))


def test_the_table_of_a_bare_chip_says_what_it_needs_around_it() -> None:
    text = loading_section("atmega32u4")
    assert "## Around the bare chip" in text
    assert "| 1 uF capacitor | from UCAP to ground, close to the chip |" in text
    assert "## Around the bare chip" not in loading_section("stick-32u4")


def test_the_table_says_how_the_firmware_starts_the_boot_loader() -> None:
    assert "by a jump to 0x7000 (" in loading_section("atmega32u4")
    stick = loading_section("stick-32u4")
    assert "by a reset by the watchdog, with the mark 0x7777 at 0x0800 of RAM (" in stick
    assert "as the profile says" not in loading_section("stick-32u4", hold="")


@pytest.mark.parametrize(
    ("controller", "said"),
    [
        ("stick-32u4", "4.05 V, and 16 MHz are only guaranteed from 4.5 V"),
        ("stick-32u4-3v3", None),
    ],
)
def test_a_supply_that_may_be_too_low_for_the_clock_is_told(controller, said) -> None:
    text = TWO_BY_TWO.format(drive="column", sense="row", diodes=DIODES.format(toward="column"))
    words = " ".join(page_of(text.replace("stick-32u4", controller)).split())
    assert (said in words) if said else ("are only guaranteed" not in words)


# --- loading ---


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("rp2040-40pin", ["`matrixgen load pad.keys`", "drag `pad.uf2` onto the drive"]),
        ("stick-32u4", ["`matrixgen load pad.keys`", "loads `pad.hex` over", "reads it back"]),
        ("atmega32u4", ["`matrixgen load pad.keys` prints the commands that load `pad.hex`"]),
        ("board-32u4-25", ["not known", "`matrixgen load pad.keys --port PORT`", "`pad.hex`"]),
    ],
)
def test_the_page_names_the_command_that_loads_and_the_file(name: str, words: list[str]) -> None:
    profile = builtin_profile(name)
    assert profile is not None
    (sentence,) = loading_words.loading(profile, "/somewhere/else/pad.keys", "pad")
    assert all(word in sentence for word in words), sentence
    assert "somewhere" not in sentence


def test_the_names_of_files_are_code_whatever_they_are() -> None:
    profile = builtin_profile("rp2040-40pin")
    assert profile is not None
    (sentence,) = loading_words.loading(profile, "a ``b``\n#.keys", "a ``b``\n#")
    assert "``` matrixgen load 'a ``b``[U+000A]#.keys' ```" in sentence
    assert "\n" not in sentence


def test_every_controller_with_a_boot_loader_has_a_way_to_load_it() -> None:
    for name in builtin_names():
        profile = builtin_profile(name)
        assert profile is not None
        told = loading_words.loading(profile, "pad.keys", "pad")
        assert bool(told) == bool(profile.port and profile.has_boot_loader), name


def test_the_sentences_stand_first_in_their_section() -> None:
    shipped = example("heron-12")
    page = markdown(pin_table(shipped.mounted), ("Say `this`.", "Then that."))
    section = page.partition("## To load an image\n")[2]
    assert section.startswith("\nSay `this`.\n\nThen that.\n\n")
    assert "\n\n\n" not in page
