"""Probing a board: what its keys close, the verdict, and the file that would be right for it."""

from __future__ import annotations

from matrixgen.bench.dialogues.asking import Asking
from matrixgen.bench.dialogues.turns import knob_faults
from matrixgen.bench.faults.board import Board, board_of
from matrixgen.bench.faults.explanation import Explanation, Played
from matrixgen.bench.faults.netlist import Pairs
from matrixgen.bench.faults.observe import Seen
from matrixgen.bench.faults.suspects import Suspects
from matrixgen.bench.serial.press import ClosedPairs
from matrixgen.bench.serial.self_report import Answers
from matrixgen.bench.verdicts.cure import edits_of
from matrixgen.bench.verdicts.verdict import Verdict
from matrixgen.boards import Profile
from matrixgen.jobs.bench_session import Say, Session
from matrixgen.jobs.learned_knobs import knob_pins_in_file
from matrixgen.jobs.learned_text import ControllerInFile
from matrixgen.model import Design
from matrixgen.model.prose import counted, quoted
from matrixgen.record import Record
from matrixgen.source.edits import edited


class Probed(Record, kw_only=True):
    """A file, its controller by its place among those of the file, what was seen, the verdict.

    `answers` is what the board said of itself: with older bench firmware, only which chip it is.
    `broken_lines` says how many lines from the port were broken or lost. `knob_faults` has what is
    wrong with each knob by its name, and `not_turned` the knobs of which nothing is known.
    """

    design: Design
    profile: Profile
    place: int
    board: Board
    seen: Seen
    verdict: Verdict
    answers: Answers
    broken_lines: int = 0
    knob_faults: tuple[tuple[str, str], ...] = ()
    not_turned: tuple[str, ...] = ()

    @property
    def not_pressed(self) -> tuple[str, ...]:
        """The keys of which nothing is known."""
        return tuple(
            key for place, key in enumerate(self.board.keys) if place not in self.seen.keys
        )

    @property
    def is_whole(self) -> bool:
        """Whether every key was pressed and every knob turned, and nothing is wrong."""
        is_known = not self.not_pressed and not self.not_turned
        return self.verdict.is_whole and is_known and not self.knob_faults

    def explained_keys(self, cause: Explanation) -> tuple[int, int]:
        """Return how many of the keys that are not as they should be a cause explains, and all."""
        wrong = set(Played(self.board, Explanation(())).wrong_keys(self.seen))
        left = set(Played(self.board, cause).wrong_keys(self.seen))
        wrong.discard(len(self.board.keys))  # the state at rest is not a key
        return len(wrong - left), len(wrong)

    @property
    def not_fixable(self) -> tuple[str, str] | None:
        """What is missing for an edit of the file to be all that is wrong, and what to do."""
        causes = self.verdict.causes
        if self.not_pressed:
            keys = counted(len(self.not_pressed), "key")
            return f"{keys} were not pressed, so nothing was written", "press every key once"
        if self.verdict.unexplained:
            return (
                f"{quoted(self.verdict.unexplained)} are not explained, so nothing was written",
                "fix what is found first, then run `probe` again",
            )
        if len(causes) > 1:
            return (
                f"{len(causes)} explanations are left, so nothing was written",
                "answer the questions until one is left",
            )
        if self.cured_text(causes[0]) is None:
            return "no edit of the file corrects this", "it needs the soldering iron"
        return None

    def cured_text(self, cause: Explanation) -> str | None:
        """Return the file's text that is right for what a cause says; None where none is."""
        edits = edits_of(self.board, self.design, self.profile, self.place, cause)
        return edited(self.design.source, edits) if edits else None


def probe(design: Design, session: Session, say: Say, *, in_order: bool) -> Probed:
    """Hold the dialogue on a finished file's board; return what was seen and the verdict on it.

    Raises `Failure` where the bench goes away, or does not read a pin that a line is on.
    """
    board = _board_of(session)
    suspects = Suspects(board)

    def read(press: ClosedPairs) -> Pairs:
        return board.numbers_of(pair for pair in press if {*pair} <= board.pin_number.keys())

    place = ControllerInFile(design, session.mounted.profile, session.place)
    in_file = knob_pins_in_file(place)
    turning = session.turned(tuple(in_file), in_file, say)
    probing = Asking(suspects, read(session.rest), in_order=in_order)
    if not turning.is_stopped:
        session.hold(probing, read, say)
    return Probed(
        design=design,
        profile=session.mounted.profile,
        place=session.place,
        board=board,
        seen=probing.result,
        verdict=probing.verdict,
        answers=session.answers,
        broken_lines=session.broken_lines,
        knob_faults=tuple(knob_faults(turning.seen, in_file)),
        not_turned=turning.missing,
    )


def _board_of(session: Session) -> Board:
    board = board_of(session.mounted, session.pins)
    assert board, "a finished file has each line on a pin of its own"
    session.must_read(board.pins, "wires")
    return board
