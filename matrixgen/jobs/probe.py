"""Probing a board: what its keys close, the verdict, and the file that would be right for it."""

from __future__ import annotations

from matrixgen.bench.answers import Answers
from matrixgen.bench.board import Board, board_of
from matrixgen.bench.cure import edits_of
from matrixgen.bench.explanation import Explanation
from matrixgen.bench.observe import Seen
from matrixgen.bench.probing import Probing
from matrixgen.bench.protocol import BenchProblem
from matrixgen.bench.suspects import Suspects
from matrixgen.bench.verdict import Verdict, verdict_of
from matrixgen.boards import Profile
from matrixgen.jobs.bench_session import Say, Session
from matrixgen.model import Design
from matrixgen.model.prose import quoted
from matrixgen.record import Record
from matrixgen.source.edits import edited


class Probed(Record, kw_only=True):
    """A file, its controller by its place among those of the file, what was seen, the verdict.

    `answers` is what the board said of itself: with older bench firmware, only which chip it is.
    """

    design: Design
    profile: Profile
    place: int
    board: Board
    seen: Seen
    verdict: Verdict
    answers: Answers

    def cured_text(self, cause: Explanation) -> str | None:
        """Return the file's text that is right for what a cause says; None where none is."""
        edits = edits_of(self.board, self.design, self.profile, self.place, cause)
        return edited(self.design.source, edits) if edits else None


def probe(design: Design, session: Session, say: Say, *, in_order: bool) -> Probed:
    """Hold the dialogue on a finished file's board; return what was seen and the verdict on it.

    Raises `BenchProblem` where the bench goes away, or does not read a pin that a line is on.
    """
    board = _board_of(session)
    suspects = Suspects(board)
    probing = Probing(suspects, board.numbers_of(session.rest), in_order=in_order)
    session.hold(probing, board.numbers_of, say)
    return Probed(
        design=design,
        profile=session.mounted.profile,
        place=session.place,
        board=board,
        seen=probing.result,
        verdict=verdict_of(suspects, probing.result),
        answers=session.answers,
    )


def _board_of(session: Session) -> Board:
    board = board_of(session.mounted, session.pins)
    assert board, "a finished file has each line on a pin of its own"
    deaf = [pin for pin in board.pins if pin not in session.pins]
    if deaf:
        raise BenchProblem(
            f"the bench firmware does not read {quoted(deaf)}, on which the file has wires",
            "load the bench firmware that matrixgen builds for the file's controller",
        )
    return board
