"""A wire on the supply, as `learn` and `probe` tell of it: with its pin, or instead of its pin."""

import pytest

from matrixgen.bench.faults.netlist import Netlist
from tests.bench_port.person import at_the_bench
from tests.bench_port.stand_in import StandIn
from tests.documents import report_of
from tests.examples.shipped import FOLDER
from tests.probe.boards import small_board, suspects_of

HERON = FOLDER / "heron-12" / "heron-12.keys"
CHIP = "AT90USB162"


class OnTheSupply(StandIn):
    """A board of which a key, once it is pressed, joins a pin to the supply."""

    def __init__(self, netlist: Netlist, chip: str, key: str, pin: str) -> None:
        super().__init__(netlist, chip)
        self._key, self._pin = key, pin

    def press(self, key: str) -> bool:
        if key != self._key:
            return super().press(key)
        self.say(f"{self._pin} high")
        return True


@pytest.fixture
def bench():
    with StandIn(Netlist(suspects_of("heron-12").board), CHIP) as made:
        yield made


def row_and_pin() -> tuple[str, str]:
    board = suspects_of("heron-12").board
    return board.name(0), board.pins[0]


def test_a_wire_that_lies_on_the_supply_is_named_before_any_key(bench):
    wire, pin = row_and_pin()
    bench.answers = [f"{pin} high"]
    status, output, said = at_the_bench(bench, ["probe", str(HERON)])
    assert (status, output) == (1, "")
    assert f"matrixgen: unplug now: the column `{wire}` on `{pin}` lies on the supply\n" in said
    assert "no continuity from any wire to VCC, RAW or 5 V" in said
    assert "by a part of the board" not in said
    assert "press" not in said.partition("press nothing.")[2]


def test_several_are_named_and_a_pin_without_a_wire_too(bench):
    board = suspects_of("heron-12").board
    spare = board.pins[board.spare[0]]
    bench.answers = [f"{board.pins[0]} high", f"{spare} high"]
    _, _, said = at_the_bench(bench, ["probe", str(HERON)])
    wire, pin = row_and_pin()
    assert f"the column `{wire}` on `{pin}` and the pin `{spare}` lie on the supply\n" in said
    assert "a pin without a wire may be held high by a part of the board" in said


@pytest.mark.parametrize("words", [["probe", str(HERON)], ["probe", "--json", str(HERON)]])
def test_a_key_that_joins_a_pin_to_the_supply_ends_it_at_once(words):
    board = suspects_of("heron-12").board
    wire, pin = row_and_pin()
    with OnTheSupply(Netlist(board), CHIP, board.keys[4], pin) as bench:
        status, output, said = at_the_bench(bench, words, board.keys)
    assert status == 1
    assert f"unplug now: a key joins the column `{wire}` on `{pin}` to the supply\n" in said
    assert "the other wire of the key that was pressed" in said
    if "--json" in words:
        report = report_of(output, "failure")
        assert [finding["slug"] for finding in report["findings"]] == ["wire-on-supply"]


def test_learn_tells_it_too_and_writes_nothing(file):
    before = file.read_bytes()
    with OnTheSupply(Netlist(small_board("with diodes")), "ATmega32U4", "B", "PD0") as bench:
        status, _, said = at_the_bench(bench, ["learn", str(file)])
    assert status == 1
    assert "unplug now: a key joins the pin `PD0` to the supply\n" in said
    assert file.read_bytes() == before
