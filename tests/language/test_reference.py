"""The language reference, `grammar/README.md`: what it shows is so."""

import re
from pathlib import Path

import pytest

from matrixgen.model.plate import (
    CUT_OUT_MM,
    MARGIN_MM,
    RADIUS_MM,
    SCREWS,
    THICKNESS_MM,
    USUAL_SCREW,
)
from matrixgen.model.switch import RIM_MM
from matrixgen.source import LIMITS, read_design
from matrixgen.source.blocks.wires import COLOURS
from matrixgen.source.statements import BLOCK_OF, BLOCKS
from matrixgen.usages import usage_of
from matrixgen.usages.media import media_usage_of
from tests.language.usage_tables import media_table, word_table
from tests.language.whole import completed

PAGE = (Path(__file__).parents[2] / "grammar" / "README.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"^```keys( whole)?\n(.*?)^```$", PAGE, re.S | re.M)


def rewired(text):
    """An example, with wires to all the keys of the plate it shows."""
    if "plate" not in text or "\nwiring\n" in text:
        return text
    keys = re.findall(
        r"^ +line (?:in \S+ |down \S+ )*(.*)$", text.replace("    line", "  line"), re.M
    )
    names = [re.sub(":.*", "", word) for line in keys for word in line.split() if word[0] != "~"]
    return f"{text}\nwiring\n  row r0 {' '.join(n for n in names if n[0].isalpha())}\n"


@pytest.mark.parametrize(("is_whole", "text"), EXAMPLES)
def test_an_example_is_read_without_findings(is_whole, text):
    text = text if is_whole else completed(rewired(text))
    design, found = read_design("reference.keys", text)
    assert found == []
    assert design is not None


def test_the_examples_show_every_block_and_statement():
    shown = {line.split()[0] for _, text in EXAMPLES for line in text.splitlines() if line.strip()}
    assert {*BLOCKS, *BLOCK_OF} <= shown


def test_the_tables_of_words_are_up_to_date():
    assert "checked by the tests -->\n\n" + word_table() + "\n## Media keys\n" in PAGE
    assert PAGE.endswith("checked by the tests -->\n\n" + media_table())


def test_a_word_that_stands_on_two_pages_means_what_the_reference_says():
    section = PAGE.partition("\n## Media keys\n")[2].partition("\n<!--")[0]
    rows = re.findall(r"^\| (`.*?) \| the one of the (.*?) \| .* \|$", section, re.M)
    pages = {"consumer page": 0x0C, "system controls": 0x01}
    assert len(rows) == 5
    for words, page in rows:
        for word in re.findall(r"`(\w+)`", words):
            assert (media_usage_of(word) or (0x07,))[0] == pages.get(page, 0x07), word
            assert (usage_of(word) is None) == (page in pages), word


def test_the_colours_are_all_named():
    assert f"{', '.join(COLOURS)}." in PAGE.replace("\n", " ")


def test_the_limits_are_named():
    for limit in (LIMITS.file_bytes, LIMITS.keys):
        assert f"{limit:,}" in PAGE
    for limit in (LIMITS.lines_per_axis, LIMITS.layers, LIMITS.name_letters, LIMITS.string_units):
        assert f" {limit} " in PAGE
    assert f" {LIMITS.holes} screw holes and {LIMITS.areas} keep-clear areas" in PAGE
    assert f"{LIMITS.least_area:g} to {LIMITS.plate_reach:g}" in PAGE
    assert f"At most {LIMITS.outline_margin:g} and {LIMITS.outline_radius:g} mm" in PAGE


def test_the_limits_of_an_outline_with_corners_are_named():
    page = PAGE.replace("\n", " ")
    assert f"3 to {LIMITS.outline_corners} corners, each at least {LIMITS.least_side:g} key" in page
    assert f"0 to {LIMITS.outline_radius:g} mm, {RADIUS_MM:g} mm without it" in page


def test_the_sizes_of_cut_outs_and_plates_are_named():
    both = LIMITS.least_cut_out, LIMITS.cut_out
    thick = LIMITS.least_thickness, LIMITS.thickness
    usual = " by ".join(f"{one:g}" for one in CUT_OUT_MM)
    assert f"{both[0]:g} to {both[1]:g} mm each" in PAGE and f"Without it {usual} mm" in PAGE
    assert f"{thick[0]:g} to {thick[1]:g} mm. Without it {THICKNESS_MM:g} mm" in PAGE


def test_the_usual_outline_and_the_room_of_screws_are_named():
    assert (
        f"Without it the margin is {MARGIN_MM:g} mm; without `radius` corners have {RADIUS_MM:g} mm"
        in PAGE
    )
    *small, usual = SCREWS
    assert usual == USUAL_SCREW
    assert f"an {usual.name}, whose head is {usual.head_mm:g} mm across" in PAGE
    names, rooms = [f"`{one.name}`" for one in small], [f"{one.head_mm:g}" for one in small]
    assert f"{' or '.join(names)}: their heads take {' and '.join(rooms)} mm" in PAGE
    assert f"where a switch's housing takes {RIM_MM:g} mm" in PAGE


def test_the_signs_that_name_themselves_are_the_keys_of_a_list():
    listed = re.search(r"^These symbols .*? themselves: (.*?)\. The symbols", PAGE, re.S | re.M)[1]
    signs = re.findall(r"(?<!`)`([^`])`(?!`)", listed)
    assert len(signs) == 8 and all(usage_of(sign) for sign in signs)
