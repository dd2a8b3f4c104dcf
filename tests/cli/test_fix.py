"""`check --fix` applies the cures that leave no doubt, and nothing else."""

import functools
import json
from collections import Counter
from pathlib import Path

import pytest

from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.fix import fixed, tried
from matrixgen.jobs.kept import keeps_all
from matrixgen.model import SourceText
from matrixgen.model.meaning import mounted_meaning
from matrixgen.source import read_design
from tests.made_once import made_once
from tests.texts import GOOD, edited

TESTS = Path(__file__).parents[1]
LAYERS = "\nlayer base\n  A = hold layer nav\n\nlayer nav\n  B = Win+L  # lock\n"
SLIPS = (
    GOOD.replace("A B\n\nwiring", "A, B\n\nwiring")
    .replace("  controller atmega32u4\n", "  controller atmega32u4\n  debounce 7  # old ones\n")
    .replace("PB0  A", "pb0  a")
    + LAYERS
)
CURED = GOOD.replace(
    "  controller atmega32u4\n", "  controller atmega32u4\n  debounce 7 ms  # old ones\n"
) + LAYERS.replace("Win+L", "GUI+L")


@functools.cache
def examined_file(name):
    path = TESTS / name
    return examine_text(path.name, path.read_bytes().decode("utf-8"), path.parent)


def with_fix():
    """The findings with a fix, as JSON: file, number and slug."""
    names = sorted(path.relative_to(TESTS).as_posix() for path in TESTS.rglob("*.keys"))
    numbered = ((name, enumerate(examined_file(name).findings)) for name in names)
    fixes = [(name, n, one.slug) for name, some in numbered for n, one in some if one.fix]
    return json.dumps(fixes).encode()


WITH_FIX = [
    pytest.param(*one, id="{}:{}".format(*one[:2]))
    for one in json.loads(made_once("findings with a fix", with_fix))
]


def counts(findings):
    return Counter((found.slug, found.message) for found in findings)


@pytest.mark.few(56)
@pytest.mark.parametrize(("name", "number", "slug"), WITH_FIX)
def test_a_cure_removes_its_finding_and_adds_none(name, number, slug):
    path, examined = TESTS / name, examined_file(name)
    found = examined.findings[number]
    assert found.slug == slug
    source = SourceText(path.name, path.read_bytes().decode("utf-8"))
    after = tried(found, examined, source, path.parent)
    assert not isinstance(after, str), after
    then = after[0].findings
    if examined.design is None:  # the rules had no say before
        then = read_design(path.name, after[1].original)[1]
    now, before = counts(then), counts(examined.findings)
    if found.fix.is_certain:
        rest = before - Counter([(found.slug, found.message)])
        if found.slug == "allow-without-effect":  # what it allows is not told any more
            rest = rest & now
        assert now == rest, now - before
    else:  # the keyboard is another one now, of which other things may be said of the same kinds
        kinds_now, kinds_before = (
            Counter(slug for slug, _ in one.elements()) for one in (now, before)
        )
        assert kinds_now[found.slug] < kinds_before[found.slug]
        new = {one.slug for one in then if one.is_error or not found.is_error}
        assert new <= set(kinds_before)


PLACES = {
    "hole 4, 0": "hole at 4, 0",
    "hole at 4  0  # 1 2": "hole at 4,  0  # 1 2",
    "keep 4, 0, 1, 1": "keep clear 4, 0, 1, 1",
    "keep_clear 4, 0, 1, 1": "keep clear 4, 0, 1, 1",
    "keep clear at 4, 0, 1, 1": None,  # a word would go
    "keep clear 4 -2 1, 1": "keep clear 4, -2, 1, 1",
    "keep clear 4,5 2 1": None,  # is it 4.5?
    "keep clear at the right": None,
    "hole left": None,
}


@pytest.mark.parametrize("typed", PLACES)
def test_a_place_on_the_plate_is_cured_where_its_numbers_are_certain(program, typed):
    text = GOOD.replace("\n\nwiring", f"\n  {typed}\n\nwiring")
    name = program.write("pad.keys", text)
    program("check", "--fix", name)
    cured = text.replace(typed, PLACES[typed] or typed)
    assert (program.folder / name).read_text("utf-8") == cured


TYPED = {
    ("computer de on win", "A"): ("computer de on windows", "A"),
    ("computer us(intl", "A"): ("computer us(intl)", "A"),
    ("computer us (intl)", "A"): None,  # two words would be one
    ("computer us", "Ctrl+K then Enter"): ("computer us", "Ctrl+K, then Enter"),
    ("computer us", '"Hello"'): ("computer us", 'type "Hello"'),
    ("computer us", "type Hello"): None,  # where does the text end?
    ("computer de", 'type "Gru\u0308\u00dfe"'): ("computer de", 'type "Gr\u00fc\u00dfe"'),
    ("computer de", "u\u0308"): ("computer de", "\u00fc"),
    ("computer de", 'type "Yours,\\nJo"'): None,
}


@pytest.mark.parametrize("typed", TYPED, ids=ascii)
def test_what_a_key_types_is_cured_where_it_is_certain(program, typed):
    def text(computer, cell):
        head = GOOD.replace("  controller atmega32u4\n", f"  controller atmega32u4\n  {computer}\n")
        return f"{head}\nlayer base\n  A = {cell}\n"

    name = program.write("pad.keys", text(*typed))
    program("check", "--fix", name)
    assert (program.folder / name).read_text("utf-8") == text(*(TYPED[typed] or typed))


def test_cures_of_many_kinds_are_tried():
    slugs = {param.values[2] for param in WITH_FIX}
    assert slugs >= {
        *("allow-without-effect", "duplicate-statement", "misplaced-statement", "syntax"),
        *("pin-not-on-controller", "unknown-key", "unknown-usage"),
    }
    assert len(WITH_FIX) >= 25


@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_a_file_with_several_slips_is_cured_in_one_run_and_keeps_its_bytes(program, end, mark):
    name = program.write("pad.keys", mark + SLIPS.replace("\n", end))
    ran = program("check", "--fix", name)
    assert (program.folder / name).read_bytes().decode() == mark + CURED.replace("\n", end)
    assert ran.status == 0
    assert "pad.keys:3:12: fixed[syntax]: " in ran.out
    assert "  -  debounce 7  # old ones\n  +  debounce 7 ms  # old ones\n" in ran.out
    assert "fixed 5 findings in pad.keys\n" in ran.out
    assert ran.out.endswith("ready to build: no findings\n")


def test_a_second_run_changes_nothing_and_says_nothing_of_cures(program):
    name = program.write("pad.keys", SLIPS)
    program("check", "--fix", name)
    before = (program.folder / name).stat()
    ran = program("check", "--fix", name)
    after = (program.folder / name).stat()
    assert "fixed" not in ran.out
    assert (before.st_ino, before.st_mtime_ns) == (after.st_ino, after.st_mtime_ns)


def test_what_leaves_a_doubt_is_left_alone(program):
    text = GOOD.replace("line A B", "line A , B").replace("toward columns", "toward rows")
    name = program.write("pad.keys", text)
    ran = program("check", "--fix", name)
    assert (ran.status, (program.folder / name).read_text()) == (1, text)
    assert "fixed" not in ran.out


DECIDED = GOOD.replace("atmega32u4\n", "atmega32u4\n  allow keys-overlap  # none left\n")


def test_a_decision_is_removed_only_where_that_is_asked_for_and_its_comment_stays(program):
    before = examine_text("pad.keys", DECIDED, program.folder).design
    name = program.write("pad.keys", DECIDED)
    program("check", "--fix", name)
    assert (program.folder / name).read_text() == DECIDED
    program("check", "--fix-also", "allow-without-effect", name)
    after = (program.folder / name).read_text()
    assert after == DECIDED.replace("allow keys-overlap  # none left", "# none left")
    design = examine_text("pad.keys", after, program.folder).design
    assert mounted_meaning(design) == mounted_meaning(before)


SECOND_DUTY = (
    GOOD.replace("PB0", "PF4")
    .replace("PB1", "PF5")
    .replace(
        "atmega32u4\n", "atmega32u4\n  allow pin-with-second-function PF4 PF5  # JTAG is off\n"
    )
)
HELD_HIGH = GOOD.replace("PB0", "PE2").replace(
    "atmega32u4\n", "atmega32u4\n  allow pin-with-second-function PE2  # 10 kohm is fitted\n"
)
LEFT = {
    "a controller misspelt": ("controller atmega32u4", "controller atmega32u5"),
    "no wiring yet": (HELD_HIGH[HELD_HIGH.index("wiring") :], ""),
    "a number for a width": ("line A B", "line A:1,5 B"),
    "a number for a gap": ("line A B", "line ~0,5 A B"),
    "a number with a blank": ("line A B", "line A:1, 5 B"),
    "an `on` forgotten": ("on PD0  A B", "PD0, PD1  A B"),
    "an `on` forgotten twice": (
        "on PD0  A B\n  column c0 on PE2",
        "PD0, PD1  A B\n  column c0 PD0, PD1",
    ),
    "a comma at the end": ("on PD0  A B", "on PD0  A B,"),
    "a place that is not there": ("PE2  #", "PE2 PD3  #"),
    "a pin with another number": ("PE2  #", "PE6  #"),
    "a place cut short": ("PE2  #", "PE  #"),
    "a statement twice": ("  controller atmega32u4\n", "  controller atmega32u4\n" * 2),
    "a key of that sign": ("line A B", "line A \\\n    B"),
}
KEPT = {
    ("pin-with-second-function", "pin-with-third-duty"): True,  # one word
    ("controller atmega32u4", "controller atmega32u2"): False,  # a number
    ("PF4 PF5  #", "PF4 # PF5"): False,  # a comment changed
    ("  # JTAG is off", ""): False,
    ("  allow pin-with-second-function PF4 PF5  # JTAG is off\n", "  # JTAG is off\n"): False,
    ("PF4 PF5  #", "PF4  #"): False,
    ("PF4 PF5  #", "pf4 pf5  #"): False,  # two words
    ("line A B", "line A"): False,
    ("line A B", "line A B C"): False,  # a switch that nobody asked for
    ("line A B", "line A:1.5 B"): False,
    ("row    r0", "column r0"): False,
    ("A B\n  column", "A\n  column"): False,
    ("columns, sense rows", "columns sense rows"): False,  # it could be read before
    ("line A B", "line A  B"): True,
}


@pytest.mark.parametrize(("there", "instead"), KEPT)
def test_an_edit_that_loses_anything_is_taken_back_whatever_rule_offers_it(there, instead):
    now = edited(SECOND_DUTY, [(there, instead)])
    before, after = (SourceText("pad.keys", text) for text in (SECOND_DUTY, now))
    assert keeps_all(before, after) == KEPT[there, instead]


MEANT = {
    "a place in small letters": ("PE2  #", "pe2  #"),
    "a check": ("allow pin-with-second-function", "allow pin-with-second-dutty"),
}


@pytest.mark.parametrize("slip", LEFT)
def test_what_may_be_meant_in_two_ways_and_what_is_a_decision_is_left(program, slip):
    text = edited(HELD_HIGH, [LEFT[slip]])
    name = program.write("pad.keys", text)
    ran = program("check", "--fix", name)
    assert (program.folder / name).read_text() == text
    assert "fixed" not in ran.out


@pytest.mark.parametrize("slip", MEANT)
def test_one_word_of_an_allow_is_corrected_where_one_was_meant(program, slip):
    name = program.write("pad.keys", edited(HELD_HIGH, [MEANT[slip]]))
    ran = program("check", "--fix", name)
    assert (program.folder / name).read_text() == HELD_HIGH
    assert "fixed[allow-without-effect]: write " in ran.out


def test_while_a_controller_is_unknown_an_allow_is_not_said_to_be_idle(program):
    text = HELD_HIGH.replace("controller atmega32u4", "controller atmega32u5")
    ran = program("check", program.write("pad.keys", text))
    assert "unknown-controller" in ran.out and "allow-without-effect" not in ran.out


def test_a_link_stays_a_link_and_a_file_keeps_its_mode(program):
    program.write("pad.keys", SLIPS)
    (program.folder / "pad.keys").chmod(0o640)
    (program.folder / "link.keys").symlink_to("pad.keys")
    program("check", "--fix", "link.keys")
    assert (program.folder / "link.keys").is_symlink()
    assert (program.folder / "pad.keys").read_text() == CURED
    assert (program.folder / "pad.keys").stat().st_mode & 0o777 == 0o640
    assert {path.name for path in program.folder.iterdir()} == {"link.keys", "pad.keys"}


def test_standard_input_cannot_be_fixed(program):
    ran = program("check", "--fix", "-", stdin=SLIPS.encode())
    assert (ran.status, ran.out) == (2, "")
    assert "standard input cannot be changed" in ran.err


def test_a_file_that_cannot_be_read_or_written_is_told_of(program, monkeypatch):
    assert program("check", "--fix", "none.keys").status == 2
    name = program.write("pad.keys", SLIPS)

    def refuse(*words, **more):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("matrixgen.cli.write_file.tempfile.mkstemp", refuse)
    ran = program("check", "--fix", name)
    assert ran.status == 2
    assert "`pad.keys` cannot be written: no space left on device" in ran.err
    assert (program.folder / name).read_text() == SLIPS


BARE = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B C
  line D E F

wiring
  drive columns, sense rows
{diodes}  row    r0 on PD0  A to C
  row    r1 on PD1  D to F
  column c0 on PB0  A D
  column c1 on PB1  B E
  column c2 on PB2  C F

layer base
  A = Shift   B = Ctrl
"""
STATED = "  diodes 1N4148, band toward columns\n"


def cured(program, slug: str, diodes: str) -> list[str]:
    name = program.write("pad.keys", BARE.format(diodes=diodes))
    ran = program("check", "--fix-also", slug, name)
    assert f"fixed[{slug}]: remove " in ran.out, ran.out
    text = (program.folder / name).read_text()
    return [line.strip() for line in text.splitlines() if "diode" in line]


def test_a_cure_that_changes_the_keyboard_is_not_applied_unasked(program):
    name = program.write("pad.keys", BARE.format(diodes=STATED + "  without diode A to F\n"))
    ran = program("check", "--fix", name)
    assert ran.status == 1
    assert "without diode A to F" in (program.folder / name).read_text()
    assert "fixed" not in ran.out


def test_asked_for_it_leaves_the_fewest_diodes_for_the_keymap(program):
    found = cured(program, "keymap-ghosts", STATED + "  without diode A to F\n")
    assert found == ["diodes 1N4148, band toward columns", "without diode C to F"]


def test_or_for_all_keys_whatever_is_pressed(program):
    found = cured(program, "ghost-possible", STATED + "  without diode A to C\n  without diode E\n")
    assert found == ["diodes 1N4148, band toward columns"]


def test_where_no_diodes_are_stated_they_are(program):
    found = cured(program, "keymap-ghosts", "  without diode A to F  # none yet\n")
    assert found == ["diodes 1N4148, band toward columns", "without diode C to F  # none yet"]


def test_a_statement_of_several_lines_is_left_to_the_maker(program):
    text = BARE.format(diodes=STATED + "  without diode A to C\n    and D to F\n")
    name = program.write("pad.keys", text)
    ran = program("check", "--fix-also", "keymap-ghosts", name)
    assert (ran.status, (program.folder / name).read_text()) == (1, text)
    said = "pad.keys:11:3: not fixed[keymap-ghosts]: there is no edit that does what its help says"
    assert said in ran.out


def test_a_cure_of_what_is_not_there_or_is_allowed_says_so(program):
    bare = STATED + "  without diode E\n"
    name = program.write("pad.keys", BARE.format(diodes=bare))
    ran = program("check", "--fix-also", "diode-against-scan", name)
    assert "pad.keys: not fixed[diode-against-scan]: nothing of that name is found" in ran.out
    allowed = BARE.format(diodes=bare).replace("32u4\n", "32u4\n  allow ghost-possible\n", 1)
    ran = program("check", "--fix-also", "ghost-possible", program.write("pad.keys", allowed))
    assert "pad.keys: not fixed[ghost-possible]: the file allows it" in ran.out


def test_a_cure_of_an_error_may_leave_a_warning(program):
    """Two diodes more on a stick at 4.05 V, whose other keys feed them with three pull-ups."""
    text = BARE.format(diodes="  without diode A to F\n").replace("atmega32u4", "stick-32u4")
    for pin, other in (("PB0", "PD4"), ("PB1", "PC6"), ("PB2", "PD7")):
        text = text.replace(pin, other)
    ran = program("check", "--fix-also", "keymap-ghosts", program.write("pad.keys", text))
    assert "fixed[keymap-ghosts]" in ran.out and "error" not in ran.out
    assert "warning[low-level-not-guaranteed]" in ran.out


ASKED = [
    pytest.param(path, slug, id=f"{path.relative_to(TESTS)}:{slug}")
    for path, slug in dict.fromkeys(
        (path, found.slug)
        for path in sorted(TESTS.rglob("broken.keys"))
        for found in examine_text(path.name, path.read_text("utf-8"), path.parent).findings
    )
]


@pytest.mark.parametrize(("path", "slug"), ASKED)
def test_what_is_asked_for_is_cured_or_it_is_said_why_not(path, slug):
    source = SourceText(path.name, path.read_text("utf-8"))
    examined = examine_text(path.name, source.original, path.parent)
    done = fixed(examined, source, path.parent, [slug])
    left = {found for found in done.examined.findings if found.slug == slug}
    assert {one.found for one in done.refused} == left
    assert all(one.why and one.slug == slug for one in done.refused)
    assert done.cured or done.refused


@pytest.mark.parametrize("slug", ["ghosts", "ghost-posible"])
def test_a_cure_of_no_finding_is_bad_use(program, slug):
    name = program.write("pad.keys", GOOD)
    ran = program("check", "--fix-also", slug, name)
    assert (ran.status, ran.out) == (2, "")
    assert f"no finding is called `{slug}`" in ran.err
