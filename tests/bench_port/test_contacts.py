"""A knob that is turned while keys are asked for is not taken for a key."""

from matrixgen.bench.serial.contacts import Contacts
from matrixgen.bench.serial.press import Presses
from matrixgen.jobs.bench_events import BenchEvents, Pressed

PINS = [f"P{number}" for number in range(12)]
A, B = PINS[-2:]


class FakeBench:
    """Says each change of a pair in a line of its own; `time` passes with each look."""

    def __init__(self):
        self.closed, self._said, self.now_s = frozenset(), [], 0.0

    def change(self, pairs):
        for pair in sorted(pairs):
            self.closed ^= {pair}
            self._said.append(self.closed)

    def listen(self):
        self.now_s += 0.02

    def states(self):
        said, self._said = self._said, []
        return [*said, self.closed]

    def monotonic(self):
        return self.now_s


def low(pin):
    return {(one, pin) for one in PINS if one != pin}


def presses_of(bench, moves):
    """Make the moves, with time to see each one; return what is taken for presses."""
    events = BenchEvents(bench, Contacts(PINS, PINS), None)
    presses = Presses(frozenset())
    found = []
    for pairs in moves:
        bench.change(pairs)
        for _ in range(5):
            bench.listen()
            found += events._seen(presses, bench.monotonic() * 1000)
    return [event.pairs for event in found if isinstance(event, Pressed)]


def test_a_turn_is_no_press_and_a_key_beside_it_is_one():
    key = {("P0", "P1")}
    moves = [low(A), key, low(B), low(A), low(B), key]
    assert presses_of(FakeBench(), moves) == [frozenset(key)]


def test_a_contact_that_is_reported_in_parts_is_no_press():
    first, rest = set(sorted(low(A))[:3]), set(sorted(low(A))[3:])
    bench = FakeBench()
    events = BenchEvents(bench, Contacts(PINS, PINS), None)
    presses, found = Presses(frozenset()), []
    for pairs in (first, rest, rest, first, (), (), ()):
        bench.change(pairs)
        bench.listen()
        found += events._seen(presses, bench.monotonic() * 1000)
    assert not [event for event in found if isinstance(event, Pressed)]
