"""At the bench only the wiring counts: what else is wrong with a file is no obstacle."""

import pytest

from matrixgen.bench.faults.board import board_of
from matrixgen.jobs.examine import examine
from matrixgen.jobs.wiring_alone import examine_wiring, wiring_errors
from tests.probe.boards import small_text
from tests.texts import edited

SOUND = small_text("with diodes")
ELSEWHERE = {
    "an unknown key in a layer": "\nlayer base\n  Q = 1\n",
    "an unknown word in a layer": "\nlayer base\n  A = nonsense word\n",
    "a line that is none": "\nlayer base\n  A B C = = =\n",
}


@pytest.mark.parametrize("below", ELSEWHERE.values(), ids=ELSEWHERE)
def test_what_is_wrong_elsewhere_is_no_obstacle(tmp_path, below):
    file = tmp_path / "small.keys"
    file.write_text(SOUND + below, encoding="utf-8")
    assert not examine(str(file)).is_finished
    examined = examine_wiring(str(file))
    assert wiring_errors(examined) == []
    assert board_of(examined.mounted[0]).keys == tuple("ABCDE")
    assert examined.design.source.original == SOUND + below
    assert examined.design.keyboard.wiring.span.line == 8


def test_a_ghost_is_no_obstacle(tmp_path):
    file = tmp_path / "bare.keys"
    text = SOUND.replace("  diodes 1N4148, band toward columns\n", "")
    file.write_text(text, encoding="utf-8")
    examined = examine_wiring(str(file))
    assert {one.slug for one in examined.errors} <= {"ghost-possible", "keymap-ghosts"}
    assert wiring_errors(examined) == []


@pytest.mark.parametrize(
    "before, after, slug",
    [
        ("  row    r1 on PD1  D E\n", "  row    r1 on PD1  D\n", "key-on-no-row"),
        ("on PD1", "on PD0", "pin-used-twice"),
        (" on PD1 ", " ", "wire-without-pin"),
        ("band toward columns", "band toward rows", "diode-against-scan"),
    ],
)
def test_what_is_wrong_with_the_wiring_is(tmp_path, before, after, slug):
    file = tmp_path / "small.keys"
    file.write_text(edited(SOUND, [(before, after)]), encoding="utf-8")
    assert [one.slug for one in wiring_errors(examine_wiring(str(file)))] == [slug]
