"""What was pressed is kept, whatever ends a dialogue, and the next one can go on with it."""

import json

import pytest

from matrixgen import cache
from matrixgen.bench.dialogues.answers import MakerAnswers
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.jobs.examine import examine
from matrixgen.jobs.going_on import GoingOn
from matrixgen.jobs.kept_session import KeptSession
from tests.bench_port.person import CTRL_C, at_the_bench
from tests.bench_port.stand_in import StandIn
from tests.bench_port.test_learn import learned_by
from tests.probe.boards import small_board, small_text
from tests.probe.test_learn import without_wiring

CHIP = "ATmega32U4"
ANSWERS = MakerAnswers(closes={"A": frozenset([("PB4", "PD0")]), "B": frozenset()}, skipped=("C",))


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache"


def learn(file, folder, **how):
    return learned_by(Netlist(small_board("with diodes")), file, cache=folder, **how)


def stops_at_c(key):
    return ":stop" if key == "C" else None


def test_a_stopped_dialogue_goes_on_with_the_key_that_it_stopped_at(file, folder):
    status, _, said = learn(file, folder, answer=stops_at_c)
    assert (status, "are kept" in said) == (1, False)
    status, output, said = learn(file, folder)
    assert status == 0, output
    assert "2 keys of 5 are kept from 20" in said
    assert "press `A`" not in said
    assert "press `C`" in said


def test_anew_begins_again(file, folder):
    learn(file, folder, answer=stops_at_c)
    status, _, said = learn(file, folder, offered=":anew")
    assert (status, said.count("press `A`")) == (0, 1)


def test_what_is_whole_is_offered_too_as_when_the_file_could_not_be_written(file, folder):
    learn(file, folder)
    file.write_text(without_wiring(small_text("with diodes")), encoding="utf-8")
    status, _, said = learn(file, folder)
    assert (status, "press `" in said) == (0, False)
    assert examine(str(file)).design.keyboard.wiring.is_given


def test_a_controller_that_goes_away_loses_nothing(file, folder):
    with StandIn(Netlist(small_board("with diodes")), CHIP) as bench:

        def unplug(key):
            if key == "D":
                bench.unplug()
            return None

        status, _, said = at_the_bench(bench, ["learn", str(file)], answer=unplug, cache=folder)
    assert status == 2
    assert "help: 3 keys are kept: the next `matrixgen learn` can go on" in said
    assert learn(file, folder)[0] == 0


def test_ctrl_c_says_what_is_kept(file, folder):
    _, _, said = learn(file, folder, answer=lambda key: [CTRL_C] if key == "C" else None)
    assert "\n2 keys are kept: the next `matrixgen learn` can go on" in said
    assert learn(file, folder)[0] == 0


def test_answers_are_kept_as_they_are(file, folder):
    KeptSession("learn", file, CHIP).write(ANSWERS)
    assert KeptSession("learn", file, CHIP).read()[0] == ANSWERS


@pytest.mark.parametrize("other", [("probe", CHIP), ("learn", "RP2040")])
def test_another_command_or_board_has_its_own(file, folder, other):
    KeptSession("learn", file, CHIP).write(ANSWERS)
    assert KeptSession(other[0], file, other[1]).read() is None


@pytest.mark.parametrize(
    "document", [None, [], 7, {}, {"form": 2}, {"form": 1, "closes": {"A": [["PB4"]]}}, "A"]
)
def test_what_is_no_session_is_none(file, folder, document):
    session = KeptSession("learn", file, CHIP)
    session.write(ANSWERS)
    [path] = folder.rglob("*.json")
    cache.keep(json.dumps(document).encode(), path)
    assert session.read() is None


def test_a_folder_that_cannot_be_written_is_said_once_one_leaves(file, folder):
    folder.write_text("no folder", encoding="utf-8")
    session = KeptSession("learn", file, CHIP)
    session.write(ANSWERS)
    [line] = session.says()
    assert line.startswith("what was pressed could not be kept: ")


class Dialogue:
    """Has answers, and counts what reaches it."""

    def __init__(self):
        self.answers, self.marks, self.is_over = MakerAnswers(closes={}), {}, False
        self.taken, self.reached = None, []
        self.holds = self.is_unplugged = False

    def begins(self):
        yield "begins"

    def pressed(self, closed):
        self.reached.append(closed)
        yield "pressed"

    typed = pressed

    def take_up(self, answers):
        self.taken = answers


@pytest.fixture
def offering(file, folder):
    KeptSession("learn", file, CHIP).write(ANSWERS)
    own = Dialogue()
    kept = KeptSession("learn", file, CHIP)
    return GoingOn(own, kept, ["A", "B", "D"], ["PB4", "PD0"]), own


def test_a_press_before_the_answer_is_not_taken(offering):
    going_on, own = offering
    assert "before you press a key" in "".join(going_on.pressed(1))
    assert "Enter goes on" in "".join(going_on.typed("what"))
    assert (own.reached, own.taken, going_on.is_over) == ([], None, False)


def test_only_keys_of_the_file_are_taken_up(offering):
    going_on, own = offering
    assert list(going_on.typed("")) == ["begins"]
    assert (set(own.taken.closes), own.taken.skipped) == ({"A", "B"}, ())
    list(going_on.pressed(1))
    assert own.reached == [1]


def test_stop_leaves_what_was_kept(offering, file, folder):
    going_on, _ = offering
    list(going_on.typed("stop"))
    assert going_on.is_over
    assert KeptSession("learn", file, CHIP).read()[0] == ANSWERS
