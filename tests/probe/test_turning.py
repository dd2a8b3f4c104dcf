"""The dialogue about knobs beside a model of their contacts: slips, and joints that are bad."""

from random import Random

import pytest

from matrixgen.bench.dialogues.learning import Learning
from matrixgen.bench.dialogues.turning import TurningKnobs
from matrixgen.bench.dialogues.turns import knob_faults
from matrixgen.bench.serial.contacts import Contacts
from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.learn import report_of
from matrixgen.jobs.learned_knobs import knob_pins_in_file
from matrixgen.jobs.learned_text import ControllerInFile
from tests.bench_port.person import TURNS, as_asked
from tests.bench_port.stand_in import Knob
from tests.probe.boards import SMALL_PINS, small_text
from tests.probe.test_learn import presses_of, small_board, without_wiring

CHIP = "ATmega32U4"
KNOBS = "  knob  volume      on PD4 PC6\n  knob  jog         on PD7 PE6  with 2 states a step\n"
VOLUME, JOG = ("PD4", "PC6"), ("PD7", "PE6")
PINS = [*SMALL_PINS, "PC6", "PD7", "PE6", "PF7"]


def text_with(knobs):
    return small_text("with diodes").rstrip("\n") + f"\n{knobs}"


def knobs(volume=VOLUME, jog=JOG, **how):
    return {"volume": Knob(volume, **how), "jog": Knob(jog)}


class Desk:
    """A dialogue that is held: `said` has what came of what was done where a knob is asked for."""

    def __init__(self, knobs, turn=as_asked, text=None):
        examined = examine_text("small.keys", text or text_with(KNOBS), None)
        self.at = ControllerInFile(examined.design, examined.mounted[0].profile, 0)
        self.knobs, self.contacts = knobs, Contacts(PINS, PINS)
        self.chance, self.turning = Random(1), None
        self.heard = frozenset()
        self._hears()
        self.file_pins = knob_pins_in_file(self.at)
        names = [knob.name.text for knob in self.at.design.keyboard.knobs]
        self.turning = TurningKnobs(names, self.file_pins, self.contacts.now)
        self.said = [*self.turning.begins()]
        while not self.turning.is_over:
            asked = [found for line in self.said if (found := TURNS.match(line))]
            for what in turn(*asked[-1].groups()):
                self._do(what)

    def _hears(self):
        """Hear each change of a pair in a line of its own, in any order; return what keys join."""
        now = {pair for knob in self.knobs.values() for pair in knob.joins(PINS)}
        changes = {(PINS[low], PINS[read]) for low, read in now} ^ self.heard
        keys = frozenset()
        for pair in self.chance.sample(sorted(changes), len(changes)):
            self.heard ^= {pair}
            keys = self.contacts.see(self.heard)
            if self.turning:
                self.turning.changed(self.contacts.now, meet=self.contacts.meet)
        return keys

    def _do(self, what):
        if isinstance(what, str):
            self.said += self.turning.typed(what[1:])
            return
        knob, states = what
        for _ in range(abs(states)):
            self.knobs[knob].place += 1 if states > 0 else -1
            self.said += self.turning.pressed(self._hears())

    @property
    def report(self):
        return report_of(self.at, Learning([]), self.turning)

    @property
    def text(self):
        return self.report.text

    @property
    def faults(self):
        return dict(knob_faults(self.turning.seen, self.file_pins))


def test_knobs_as_the_file_has_them_change_nothing_however_they_rest():
    for place in range(4):
        turned = {"volume": Knob(VOLUME, place), "jog": Knob(JOG, 3 - place)}
        desk = Desk(turned)
        assert (desk.text, desk.faults) == (text_with(KNOBS), {})
        assert "`volume`: PD4 before PC6 to the right" in desk.said


def test_two_knobs_on_each_other_s_pins_are_written():
    desk = Desk(knobs(JOG, VOLUME))
    swapped = "knob  volume      on PD7 PE6\n  knob  jog         on PD4 PC6  with 2"
    assert swapped in desk.text
    assert desk.faults["volume"].startswith("is on `PD7` and `PE6`, as `jog` should be")


def test_a_knob_that_turns_the_wrong_way_is_told_by_a_probe():
    assert Desk(knobs(VOLUME[::-1])).faults == {
        "volume": "turns the wrong way: write `on PC6 PD4` in the file"
    }


PLACES = "  knob volume at 9, 0.5\n  knob jog at 11, 0.5\n"


@pytest.mark.parametrize("learns_keys", [False, True])
def test_knobs_that_are_only_on_the_plate_get_their_statements(learns_keys):
    text = without_wiring(small_text("with diodes")).rstrip("\n") + f"\n{PLACES}"
    desk = Desk(knobs(VOLUME[::-1]), text=text)
    learning = Learning([*"ABCDE"])
    learning.presses = presses_of(small_board("with diodes")) if learns_keys else {}
    after = report_of(desk.at, learning, desk.turning).text
    assert after.endswith("  knob volume      on 5 4\n  knob jog         on 6 7\n")
    assert after.startswith(text) and after.count("wiring\n") == 1


@pytest.mark.parametrize(
    ("done", "says"),
    [
        ([["\n"]], "nothing changed: turn it once more"),
        ([[("volume", -4), ("volume", 8), "\n"]], ""),
        ([[("volume", 2), ("volume", -2), "\n"]], "no step to one side was seen"),
        ([[("volume", -4), "\n"], ["\n:again"]], "now turn `volume` one step back"),
        ([[("volume", -4), "\n"], [("volume", -4), "\n"]], "both turns went the same way"),
        ([[("volume", 4), ("jog", 4), "\n"]], "turn only `volume`"),
        ([[("volume", 4), "\n"], [("jog", -4), "\n"]], "turn only `volume`"),
        ([["\n:jog"], ["\n:skip"]], "the file has no knob `:jog`"),
        ([["\njog"]], "turn `jog` one step to the right"),
        ([["\nnonsense"]], "the file has no knob `nonsense`"),
    ],
)
def test_what_a_slip_ends_with_is_what_a_careful_turn_does(done, says):
    ends = [["\nvolume"]] if any(one in (["\njog"], ["\n:skip"]) for one in done) else []
    desk = Desk(knobs(VOLUME[::-1]), slips(done, ends))
    assert desk.text == text_with(KNOBS.replace("PD4 PC6", "PC6 PD4")), desk.said
    assert any(says in line for line in desk.said)


def slips(done, at_jog):
    """Do one thing after another where `volume` is asked for, and others where `jog` is."""
    left = {"volume": list(done), "jog": list(at_jog)}
    return lambda name, way: left[name].pop(0) if left[name] else as_asked(name, way)


def test_another_knob_than_the_one_that_was_asked_for_is_not_taken():
    desk = Desk(knobs(), slips([], [[("volume", 4), "\n"]]))
    assert any("that is what `volume` did: turn only `jog`" in line for line in desk.said)
    assert desk.text == text_with(KNOBS)


FAULTS = [
    ({"volume": (None, "PC6")}, "never closes its contact on `PD4`"),
    ({"volume": ("PD4", "PF7"), "stuck": "PF7"}, "never closes its contact on `PC6`"),
    ({"stuck": "PC6"}, "never opens its contact on `PC6`"),
    ({"has_ground": False}, "closes neither contact: check the wire from its middle leg to ground"),
    ({"volume": (None, None)}, "closes neither contact"),
]


@pytest.mark.parametrize(("how", "says"), FAULTS)
def test_a_contact_that_is_dead_is_named_and_the_file_keeps_its_pins(how, says):
    desk = Desk(knobs(**how))
    assert says in desk.faults["volume"]
    [remark] = desk.report.remarks
    assert (remark.key, says in remark.says) == ("volume", True)
    assert desk.text == text_with(KNOBS)


def test_pins_that_a_loose_middle_leg_joins_are_told_at_once():
    said = Desk(knobs(has_ground=False)).said
    assert any("If you turned `volume`, its middle leg is not on ground" in line for line in said)


def test_ground_on_an_outer_leg_is_told():
    """The middle leg is on PD4, B is on PC6, and what should be A is on ground."""
    knob = Knob(VOLUME, ground="A")
    desk = Desk({"volume": knob, "jog": Knob(JOG)})
    assert (
        "joins its two pins to each other: ground is on one of its outer" in desk.faults["volume"]
    )
