"""`check --fix` applies the cures that leave no doubt, and nothing else."""

from collections import Counter
from pathlib import Path

import pytest

from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.fix import apply
from matrixgen.model import SourceText
from matrixgen.model.meaning import mounted_meaning
from matrixgen.source import read_design
from tests.cli.conftest import GOOD

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


def broken_files():
    for path in sorted(TESTS.rglob("*.keys")):
        text = path.read_bytes().decode("utf-8")
        examined = examine_text(path.name, text, path.parent)
        for number, found in enumerate(examined.findings):
            if found.fix:
                name = f"{path.relative_to(TESTS)}:{number}"
                yield pytest.param(path, examined, found, id=name)


WITH_FIX = list(broken_files())


def counts(findings):
    return Counter((found.slug, found.message) for found in findings)


def kinds(findings):
    return {found.slug for found in findings}


@pytest.mark.parametrize(("path", "examined", "found"), WITH_FIX)
def test_a_cure_removes_its_finding_and_adds_none(path, examined, found):
    source = SourceText(path.name, path.read_bytes().decode("utf-8"))
    after = apply(found, examined, source, path.parent)
    assert after is not None, "the cure did not hold"
    now = counts(after[0].findings)
    if examined.design is None:  # the rules had no say before
        now = counts(read_design(path.name, after[1].original)[1])
    before = counts(examined.findings)
    if found.fix.is_certain:
        assert now == before - Counter([(found.slug, found.message)]), now - before
    else:  # the keyboard is another one now, of which other things may be said of the same kinds
        assert kinds(after[0].findings) <= kinds(examined.findings) - {found.slug}


PLACES = {
    "hole 4, 0": "hole at 4, 0",
    "hole at 4  0  # 1 2": "hole at 4,  0  # 1 2",
    "keep 4, 0, 1, 1": "keep clear 4, 0, 1, 1",
    "keep_clear 4, 0, 1, 1": "keep clear 4, 0, 1, 1",
    "keep clear at 4, 0, 1, 1": "keep clear 4, 0, 1, 1",
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


def test_cures_of_many_kinds_are_tried():
    slugs = {param.values[2].slug for param in WITH_FIX}
    assert slugs >= {
        *("allow-without-effect", "doubled-statement", "misplaced-statement", "syntax"),
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
    assert ran.out.endswith("can be built, nothing found\n")


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


def test_a_cure_never_changes_what_a_sound_file_means(program):
    text = GOOD.replace("atmega32u4\n", "atmega32u4\n  allow keys-overlap  # none left\n")
    before = examine_text("pad.keys", text, program.folder).design
    name = program.write("pad.keys", text)
    program("check", "--fix", name)
    after = (program.folder / name).read_text()
    assert after == GOOD
    design = examine_text("pad.keys", after, program.folder).design
    assert mounted_meaning(design) == mounted_meaning(before)


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
    ran = program("check", "--cure", slug, name)
    assert f"fixed[{slug}]: take " in ran.out, ran.out
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
    ran = program("check", "--cure", "keymap-ghosts", name)
    assert (ran.status, (program.folder / name).read_text()) == (1, text)


@pytest.mark.parametrize("slug", ["ghosts", "ghost-posible"])
def test_a_cure_of_no_finding_is_bad_use(program, slug):
    name = program.write("pad.keys", GOOD)
    ran = program("check", "--cure", slug, name)
    assert (ran.status, ran.out) == (2, "")
    assert f"no finding is called `{slug}`" in ran.err
